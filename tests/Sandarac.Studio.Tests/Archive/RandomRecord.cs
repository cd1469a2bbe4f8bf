using System.Reflection;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;
using Sandarac.Imaging.Tiles;
using Sandarac.Studio.Archive.Rows;
using Sandarac.Studio.Record;
using Sandarac.Studio.Storage;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests.Archive;

/// <summary>
/// A painting with rows in every table that the database's model has, each column filled by its type, so that a table or column added later is filled too. Only what the record itself promises is kept: keys are there,
/// histories fit, seals hold, geometries are GeoJSON, files exist.
/// </summary>
internal sealed class RandomRecord
{
    private static readonly string[] Words = ["", "losses", "Fähre bei Ebbe", "=1+1", "<b>bold</b>", "a \"quoted\", comma", "two\nlines\r\nthree", "\u00e9 e\u0301", "\U0001F58C", "../../etc/passwd", "C:\\x", "CON", "100 %", " blank ", "пейзаж", "絵"];
    private static readonly string[] Shapes =
    [
        "{\"type\":\"Point\",\"coordinates\":[12.5,-3]}", "{\"type\":\"LineString\",\"coordinates\":[[0,0],[1.25,1e-7],[400,500]]}", "{\"type\":\"Polygon\",\"coordinates\":[[[0,0],[10,0],[10,10],[0,0]]]}",
        "{\"type\":\"MultiPolygon\",\"coordinates\":[[[[0,0],[3,0],[3,3],[0,0]]],[[[5,5],[6,5],[6,6],[5,5]]]]}",
    ];

    private readonly Random _random;
    private readonly OpenStudio _studio;
    private readonly RecordModel _model;
    private readonly List<StoredObject> _objects = [];
    private readonly List<PyramidFacts> _pyramids = [];
    private readonly Dictionary<RecordTable, List<Guid>> _ids = [];
    private readonly Dictionary<RecordTable, List<object>> _rows = [];
    private readonly NullabilityInfoContext _nullability = new();
    private readonly string[] _terms = [.. Enumerable.Range(0, 3).Select(i => $"varnish/a word of the house's own {i} {Guid.NewGuid()}")];
    private int _counter;

    private RandomRecord(OpenStudio studio, StudioDb db, int seed) => (_studio, _model, _random) = (studio, RecordModel.Of(db), new Random(seed));

    /// <summary>Writes one into a studio; the painting's id.</summary>
    public static Guid Write(OpenStudio studio, int seed)
    {
        using var db = studio.CreateDb();
        var record = new RandomRecord(studio, db, seed);
        record.MakePyramids();
        record.Fill();
        db.AddRange(record._rows.Values.SelectMany(r => r));
        db.SaveWithObjects(record._objects);
        foreach (var o in record._objects) studio.Objects.Confirm(o.Sha256);
        return record._ids.Single(i => i.Key.RowType == typeof(Painting)).Value[0];
    }

    private void Fill()
    {
        foreach (var table in _model.Tables) _ids[table] = [.. Enumerable.Range(0, table.RowType == typeof(Painting) ? 1 : _random.Next(1, 4)).Select(_ => Guid.CreateVersion7())];
        foreach (var table in _model.Tables) _rows[table] = [.. Enumerable.Range(0, Count(table)).Select(i => Row(table, i))];
    }

    /// <summary>No more rows than there are others to belong to, where each belongs to one of its own.</summary>
    private int Count(RecordTable table) => table.Key is [{ } only] && table.References.FirstOrDefault(r => r.Column == only) is { } owner ? Math.Min(_ids[table].Count, _rows[owner.Table].Count) : _ids[table].Count;

    private object Row(RecordTable table, int number)
    {
        var row = Activator.CreateInstance(table.RowType, nonPublic: true)!;
        foreach (var column in table.Columns) column.Set(row, Column(table, column, row, number));
        return row switch
        {
            StateSeal seal => With(table, seal, nameof(seal.Sha256), HashOf(seal.Text)),
            ProposalApproval approval => With(table, approval, nameof(approval.Sha256), HashOf(approval.Text)),
            Signature signature => With(table, signature, nameof(signature.Sha256), _rows[_model.Table<StateSeal>()].Cast<StateSeal>().Single(s => s.StateId == signature.StateId).Sha256),
            WrittenChange change => With(table, change, nameof(change.Content), Revision(change.SubjectId)),
            _ => row,
        };
    }

    private static string HashOf(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));

    private static object With(RecordTable table, object row, string column, object value)
    {
        table.Columns.Single(c => c.Name == column).Set(row, value);
        return row;
    }

    private object? Column(RecordTable table, RecordColumn column, object row, int number)
    {
        if (table.References.FirstOrDefault(r => r.Column == column) is { } reference) return OfOwner(reference.Table, table.Key is [{ } only] && only == column ? number : _random.Next(1000));
        if (column == table.Id) return _ids[table][number];
        if (column.Name == "PaintingId") return _ids[_model.Table<Painting>()][0];
        if (column.Name == "SubjectId") return Pick(_rows.Where(r => r.Value is [{ } first, ..] && first.GetType().BaseType is { IsGenericType: true }).SelectMany(r => _ids[r.Key]).ToList());
        if (table.Objects.Contains(column) && column.Type == typeof(string)) return Original();
        if (column.Name == "Geometry") return Pick(Shapes);
        if (column.Name is "Version" or "Revision" or "Number" && column.Type == typeof(int)) return ++_counter;
        if (row is HouseTerm && column == table.Key[0]) return _terms[number];
        if (table.Key.Contains(column)) return $"{Pick(Words)} {++_counter}";
        if (column.Type == typeof(RunState)) return Pick([RunState.Done, RunState.NoAnswer, RunState.Cancelled, RunState.Failed, RunState.Interrupted]);
        if (row is Finding && column.Name == "Term") return number == 0 ? _terms[0] : Pick([.. _terms, "varnish/bloom", ""]);
        return column.MayBeNull && _random.Next(3) == 0 ? null : Value(column.Type);
    }

    private Guid OfOwner(RecordTable owner, int number)
    {
        var rows = _rows[owner];
        return (Guid)owner.Key[0].Get(rows[number % rows.Count])!;
    }

    private object? Value(Type type)
    {
        type = Nullable.GetUnderlyingType(type) ?? type;
        if (type == typeof(string)) return $"{Pick(Words)}{Pick(Words)}";
        if (type == typeof(Guid)) return Pick(_ids.Where(i => i.Key.Id is not null && i.Key.References.All(r => r.Column != i.Key.Id)).SelectMany(i => i.Value).ToList());
        if (type == typeof(bool)) return _random.Next(2) == 0;
        if (type == typeof(int)) return _random.Next(1, 3000);
        if (type == typeof(long)) return _random.NextInt64(1, long.MaxValue);
        if (type == typeof(double)) return Pick([0.1, 1e-300, double.MaxValue, 1.0 / 3, 5e-324, 412]) * (_random.Next(2) == 0 ? 1 : _random.NextDouble());
        if (type == typeof(DateTime)) return new DateTime(_random.NextInt64(DateTime.MaxValue.Ticks), DateTimeKind.Utc);
        if (type == typeof(DateOnly)) return DateOnly.FromDayNumber(_random.Next(DateOnly.MaxValue.DayNumber));
        if (type.IsEnum) return Pick(Enum.GetValues(type).Cast<object>().ToList());
        if (type == typeof(PyramidFacts)) return Pick(_pyramids);
        if (type == typeof(PlaneMap)) return Map();
        if (type == typeof(Evidence)) return _random.Next(3) == 0 ? new Evidence(EvidenceKind.Literature, null, Pick(Words)) : new Evidence(Pick([EvidenceKind.Photograph, EvidenceKind.Reading, EvidenceKind.Sample]), (Guid)Value(typeof(Guid))!, Pick(Words));
        if (type == typeof(IReadOnlyDictionary<string, string>)) return Enumerable.Range(0, _random.Next(3)).ToDictionary(i => $"p{i}", _ => Pick(Words));
        if (type.IsGenericType && type.GetGenericTypeDefinition() == typeof(IReadOnlyList<>)) return List(type.GetGenericArguments()[0]);
        return Structure(type);
    }

    private Array List(Type item)
    {
        var list = Array.CreateInstance(item, _random.Next(4));
        for (var i = 0; i < list.Length; i++) list.SetValue(Value(item), i);
        return list;
    }

    private object Structure(Type type)
    {
        var constructor = type.GetConstructors().MaxBy(c => c.GetParameters().Length);
        var thing = constructor is null ? Activator.CreateInstance(type)! : constructor.Invoke([.. constructor.GetParameters().Select(p => MayBeNull(_nullability.Create(p)) ? null : Value(p.ParameterType))]);
        foreach (var property in type.GetProperties().Where(p => p.CanWrite && constructor?.GetParameters().Any(a => a.Name == p.Name) != true)) property.SetValue(thing, MayBeNull(_nullability.Create(property)) ? null : Value(property.PropertyType));
        return thing;
    }

    private bool MayBeNull(NullabilityInfo info) => info.ReadState == NullabilityState.Nullable && _random.Next(3) == 0;

    private PlaneMap Map()
    {
        var flat = new HomographyMap([0.4, _random.NextDouble() / 100, 3, 0.001, 0.4, -2, 1e-6, 0, 1], new Point2(30, 20), 50, 0.01 * _random.NextDouble());
        return _random.Next(2) == 0 ? flat : new WarpedMap(flat, new Box(0, 0, 40, 30), 2, 1, [.. Enumerable.Range(0, 20).Select(_ => _random.NextDouble())], [.. Enumerable.Range(0, 20).Select(_ => _random.NextDouble())]);
    }

    private string Revision(Guid subject)
    {
        var content = _model.Tables.Single(t => _ids[t].Contains(subject)).RowType.BaseType!.GetGenericArguments()[0];
        return JsonSerializer.Serialize(Value(content), content, StudioJson.Options);
    }

    /// <summary>What came from outside is never decoded on the way: any bytes will do, none among them.</summary>
    private string Original()
    {
        var path = _studio.Objects.NewTemporaryPath();
        var bytes = new byte[_random.Next(5) == 0 && _objects.All(o => o.Bytes > 0) ? 0 : _random.Next(1, 5000)];
        _random.NextBytes(bytes);
        File.WriteAllBytes(path, bytes);
        return Keep(_studio.Objects.Adopt(path, null, Pick(["image/tiff", "image/png"]), isDerived: false)).Sha256;
    }

    private void MakePyramids()
    {
        foreach (var (width, height, bands) in new[] { (5, 4, 1), (3, 7, 3) })
        {
            var (image, pyramid) = (_studio.Objects.NewTemporaryPath(), _studio.Objects.NewTemporaryPath());
            TinyTiff.Write(image, width, height, bands, [.. Enumerable.Range(0, width * height * bands).Select(i => (ushort)(900 * i + width))]);
            using (var file = ImageFile.Open(image)) PyramidFile.Write(file, pyramid);
            File.Delete(image);
            var (stored, facts) = NewPyramid.Adopt(_studio.Objects, pyramid, null, null);
            Keep(stored);
            _pyramids.Add(facts);
        }
    }

    private StoredObject Keep(StoredObject o)
    {
        _objects.Add(o);
        return o;
    }

    private T Pick<T>(IReadOnlyList<T> of) => of[_random.Next(of.Count)];
}
