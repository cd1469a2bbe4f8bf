namespace Sandarac.Studio.Archive.Rows;

/// <summary>Which of a table's rows belong to a painting: those that have one of these keys in this column.</summary>
/// <param name="Property">The property of the row.</param>
/// <param name="Keys">The keys, from the rows that were found before.</param>
internal sealed record RecordLink(string Property, Func<RecordRows, IEnumerable<object>> Keys);

/// <summary>A column that must name a row of another table.</summary>
/// <param name="Column">The column.</param>
/// <param name="Table">The other table.</param>
internal sealed record RecordReference(RecordColumn Column, RecordTable Table);

/// <summary>A table of the record.</summary>
/// <param name="Name">Its name in the database.</param>
/// <param name="RowType">The type of its rows.</param>
/// <param name="Columns">All its columns.</param>
/// <param name="Key">Those of them that tell rows apart.</param>
/// <param name="Link">How its rows belong to a painting.</param>
/// <param name="References">Columns that must name a row of another carried table.</param>
/// <param name="Objects">Columns that must name a file of the store.</param>
internal sealed record RecordTable(string Name, Type RowType, IReadOnlyList<RecordColumn> Columns, IReadOnlyList<RecordColumn> Key, RecordLink Link, IReadOnlyList<RecordReference> References, IReadOnlyList<RecordColumn> Objects)
{
    /// <summary>The column that holds a row's own id; null for tables that are told apart otherwise.</summary>
    public RecordColumn? Id => Key is [{ } only] && only.Type == typeof(Guid) ? only : null;

    /// <summary>Rows in an order that depends on nothing but the rows.</summary>
    public IReadOnlyList<object> Sorted(IEnumerable<object> rows) => [.. rows.Order(Comparer<object>.Create((a, b) => Key.Select(k => Compare(k.Get(a), k.Get(b))).FirstOrDefault(c => c != 0)))];

    /// <summary>Equality and tables as keys go by the name: tables refer to tables.</summary>
    public bool Equals(RecordTable? other) => other?.Name == Name;

    public override int GetHashCode() => Name.GetHashCode(StringComparison.Ordinal);

    public override string ToString() => Name;

    private static int Compare(object? a, object? b) => a is string s && b is string t ? string.CompareOrdinal(s, t) : Comparer<object?>.Default.Compare(a, b);
}
