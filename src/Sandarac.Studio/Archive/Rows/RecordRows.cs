using System.Data;
using System.Reflection;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Archive.Rows;

/// <summary>All rows of the record that belong to one painting, table by table.</summary>
internal sealed class RecordRows(RecordModel model, Guid paintingId)
{
    /// <summary>Keys asked for at once; PostgreSQL and SQLite take some tens of thousands.</summary>
    private const int KeysAtOnce = 2000;

    private readonly Dictionary<RecordTable, IReadOnlyList<object>> _rows = [];

    public RecordModel Model => model;

    public Guid PaintingId => paintingId;

    public Painting Painting => Of<Painting>().Single();

    public IReadOnlyList<object> Of(RecordTable table) => _rows.GetValueOrDefault(table, []);

    public IEnumerable<T> Of<T>() => Of(model.Table<T>()).Cast<T>();

    public void Put(RecordTable table, IEnumerable<object> rows) => _rows[table] = table.Sorted(rows);

    /// <summary>The ids of all rows that have one.</summary>
    public HashSet<Guid> Ids() => [.. _rows.Where(r => r.Key.Id is not null).SelectMany(r => r.Value.Select(row => (Guid)r.Key.Id!.Get(row)!))];

    /// <summary>All rows with a history of revisions: their ids, and the type of what is written of them.</summary>
    public IEnumerable<(Guid Id, Type Content)> Written() => _rows.Where(r => ContentOf(r.Key.RowType) is not null).SelectMany(r => r.Value.Select(row => ((Guid)r.Key.Id!.Get(row)!, ContentOf(r.Key.RowType)!)));

    /// <summary>Keys of the terms that findings have, or had at some revision.</summary>
    public IEnumerable<string> TermsUsed()
    {
        var findings = Of<Finding>().ToDictionary(f => f.Id);
        var before = Of<WrittenChange>().Where(c => findings.ContainsKey(c.SubjectId)).Select(c => JsonSerializer.Deserialize<FindingContent>(c.Content, StudioJson.Options)!.Term);
        return findings.Values.Select(f => f.Content.Term).Concat(before).Where(t => t.Length > 0).Distinct();
    }

    /// <summary>Reads a painting's rows, all as they stood at one moment.</summary>
    public static RecordRows Read(StudioDb db, Guid paintingId)
    {
        using var moment = db.Database.BeginTransaction(IsolationLevel.RepeatableRead);
        var rows = new RecordRows(RecordModel.Of(db), paintingId);
        foreach (var table in rows.Model.Tables) rows.Put(table, Ask(db, table, table.Link.Property, table.Link.Keys(rows)));
        return rows;
    }


    /// <summary>A table's rows that have one of some keys in a property.</summary>
    public static IEnumerable<object> Ask(StudioDb db, RecordTable table, string property, IEnumerable<object> keys)
    {
        var distinct = keys.Distinct().ToList();
        if (distinct.Count == 0) return [];
        var ask = typeof(RecordRows).GetMethod(nameof(AskFor), BindingFlags.NonPublic | BindingFlags.Static)!.MakeGenericMethod(table.RowType, distinct[0].GetType());
        return (IEnumerable<object>)ask.Invoke(null, [db, property, distinct])!;
    }

    private static List<object> AskFor<TRow, TKey>(StudioDb db, string property, List<object> keys) where TRow : class =>
        [.. keys.Cast<TKey>().Chunk(KeysAtOnce).SelectMany(some => db.Set<TRow>().AsNoTracking().Where(r => some.Contains(EF.Property<TKey>(r, property))).ToList())];

    private static Type? ContentOf(Type? row) => row is null ? null : row.IsGenericType && row.GetGenericTypeDefinition() == typeof(Written<>) ? row.GetGenericArguments()[0] : ContentOf(row.BaseType);
}
