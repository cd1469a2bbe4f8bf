using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Archive.Rows;

/// <summary>
/// The record's tables as the database's model has them, and how their rows belong to a painting. A table that is added to the model is carried by itself when it has the painting's key, or refers to a table that
/// is carried; one that does neither must be named here.
/// </summary>
internal sealed class RecordModel
{
    /// <summary>Tables that no package carries, and why.</summary>
    public static IReadOnlyDictionary<Type, string> NotCarried { get; } = new Dictionary<Type, string>
    {
        [typeof(StoredObject)] = "The files themselves are carried, and what the table says of each stands beside its path.",
        [typeof(SearchEntry)] = "Made from the rest, and made anew where it is unpacked.",
        [typeof(ReferenceChronology)] = "The studio's own, and often not its to hand on; a dated series says in words what it was dated by.",
        [typeof(ShelfItem)] = "What stands in the studio; the log says in words what was used and of which batch.",
        [typeof(HouseRegion)] = "The studio's own knowledge; tests say what they did without it.",
    };

    /// <summary>Tables that refer to others without saying so to the database; the later ones may look at the rows of the earlier ones.</summary>
    private static readonly IReadOnlyList<(Type RowType, RecordLink Link)> NamedLinks =
    [
        (typeof(WrittenChange), new RecordLink(nameof(WrittenChange.SubjectId), rows => rows.Written().Select(w => (object)w.Id).Append(rows.PaintingId))),
        (typeof(HouseTerm), new RecordLink(nameof(HouseTerm.Key), rows => rows.TermsUsed())),
    ];

    private readonly Dictionary<IEntityType, RecordTable> _tables = [];

    private RecordModel(IModel model)
    {
        // What is linked by name looks at the rows of all others.
        var open = model.GetEntityTypes().Where(t => !NotCarried.ContainsKey(t.ClrType)).OrderBy(t => NamedPlace(t.ClrType)).ThenBy(t => t.GetTableName(), StringComparer.Ordinal).ToList();
        while (open.FirstOrDefault(t => LinkOf(t) is not null) is { } next)
        {
            open.Remove(next);
            _tables.Add(next, TableOf(next, LinkOf(next)!));
        }
        if (open.Count > 0) throw new InvalidOperationException($"Nothing says which rows of {string.Join(", ", open.Select(t => t.GetTableName()))} belong to a painting.");
    }

    /// <summary>The tables, owners before what they own.</summary>
    public IReadOnlyList<RecordTable> Tables => [.. _tables.Values];

    public static RecordModel Of(StudioDb db) => new(db.Model);

    public RecordTable Table<T>() => _tables.Values.First(t => t.RowType == typeof(T));

    private static int NamedPlace(Type rowType) => NamedLinks.Select(n => n.RowType).ToList().IndexOf(rowType);

    private RecordLink? LinkOf(IEntityType type)
    {
        if (type.ClrType == typeof(Painting)) return new RecordLink(nameof(Painting.Id), rows => [rows.PaintingId]);
        if (_tables.Count == 0 || type.GetForeignKeys().Any(k => k.PrincipalEntityType != type && !NotCarried.ContainsKey(k.PrincipalEntityType.ClrType) && !_tables.ContainsKey(k.PrincipalEntityType))) return null;
        if (NamedPlace(type.ClrType) is >= 0 and var place) return NamedLinks[place].Link;
        if (type.FindProperty("PaintingId") is not null) return new RecordLink("PaintingId", rows => [rows.PaintingId]);
        var owner = type.GetForeignKeys().FirstOrDefault(k => k.Properties.Count == 1 && _tables.ContainsKey(k.PrincipalEntityType));
        if (owner is null) return null;
        var (table, key) = (_tables[owner.PrincipalEntityType], owner.PrincipalKey.Properties[0].Name);
        return new RecordLink(owner.Properties[0].Name, rows => rows.Of(table).Select(r => table.Columns.First(c => c.Path[^1].Name == key).Get(r)!));
    }

    private RecordTable TableOf(IEntityType type, RecordLink link)
    {
        RecordColumn[] columns = [.. type.GetProperties().Select(p => ColumnOf(p)), .. type.GetComplexProperties().SelectMany(c => c.ComplexType.GetProperties().Select(p => ColumnOf(p, c)))];
        RecordColumn Column(IProperty property) => columns.First(c => c.Name == property.GetColumnName());
        var single = type.GetForeignKeys().Where(k => k.Properties.Count == 1).ToList();
        return new RecordTable(type.GetTableName()!, type.ClrType, columns, [.. type.FindPrimaryKey()!.Properties.Select(Column)], link,
            [.. single.Where(k => _tables.ContainsKey(k.PrincipalEntityType)).Select(k => new RecordReference(Column(k.Properties[0]), _tables[k.PrincipalEntityType]))],
            [.. columns.Where(c => c.Type == typeof(PyramidFacts) || type.ClrType == typeof(MeasuredSpectrum) && c.Name == nameof(SpectrumContent.Sha256)), .. single.Where(k => k.PrincipalEntityType.ClrType == typeof(StoredObject)).Select(k => Column(k.Properties[0]))]);
    }

    private static RecordColumn ColumnOf(IProperty property, IComplexProperty? within = null) => new(property.GetColumnName(), property.ClrType, property.IsNullable,
        [.. within is null ? Array.Empty<System.Reflection.PropertyInfo>() : [within.PropertyInfo!], property.PropertyInfo ?? throw new InvalidOperationException($"{property.Name} is no property of {property.DeclaringType.Name}.")]);
}
