using System.Reflection;

namespace Sandarac.Studio.Archive.Rows;

/// <summary>A column of the record's tables, as the database's model has it.</summary>
/// <param name="Name">The column's name in the database.</param>
/// <param name="Type">The type of its values in the program.</param>
/// <param name="MayBeNull">Whether it may hold nothing.</param>
/// <param name="Path">The property of the row that holds it, after the property that this one is a part of, if there is one.</param>
internal sealed record RecordColumn(string Name, Type Type, bool MayBeNull, IReadOnlyList<PropertyInfo> Path)
{
    private Type Bare { get; } = Nullable.GetUnderlyingType(Type) ?? Type;

    /// <summary>Whether its values have an inner structure, which is stored as JSON.</summary>
    public bool IsNested => !Bare.IsPrimitive && !Bare.IsEnum && Bare != typeof(string) && Bare != typeof(Guid) && Bare != typeof(DateTime) && Bare != typeof(DateOnly) && Bare != typeof(decimal);

    public bool IsTime => Bare == typeof(DateTime);

    public object? Get(object row) => Path.Aggregate((object?)row, (holder, property) => property.GetValue(holder));

    /// <summary>Rows are made without the compiler, so what may only be set at birth is set here.</summary>
    public void Set(object row, object? value) => Path[^1].SetValue(Path.SkipLast(1).Aggregate(row, (holder, property) => property.GetValue(holder)!), value);

    /// <summary>The keys that a row refers to by this column itself; those deeper in a structure are not among them.</summary>
    public IEnumerable<Guid> References(object row) => Get(row) switch { Guid id => [id], IEnumerable<Guid> ids => ids, _ => [] };
}
