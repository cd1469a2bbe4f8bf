using System.IO.Compression;
using CsCheck;
using Sandarac.Studio.Archive.Rows;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests.Archive;

public sealed class RoundtripTests(PostgresServer server)
{
    /// <summary>Every table and column of the database's model, filled at random: packed, unpacked elsewhere, packed again.</summary>
    [Theory, EachDatabase]
    public void Roundtrip_loses_no_row_and_no_byte(Database database)
    {
        using var studios = new PackStudios(database, server);
        var n = 0;
        Gen.Int.Sample(seed =>
        {
            var painting = RandomRecord.Write(studios.A, seed);
            var (first, second) = (studios[$"{++n}a{(n % 2 == 0 ? ".zip" : "")}"], studios[$"{n}b"]);
            AssertAllTablesHaveRows(studios.A, painting);
            PackStudios.Pack(studios.A, painting, first);
            var unpacked = PackStudios.Unpack(studios.B, first);
            PackStudios.Pack(studios.B, painting, second);
            Assert.Equal((painting, false), (unpacked.PaintingId, unpacked.AlreadyThere));
            Assert.Equal(PackStudios.Rows(studios.A, painting), PackStudios.Rows(studios.B, painting));
            AssertCanBeFound(studios.B, painting);
            AssertSamePayload(first, second, studios[$"{n}a-as-folder"]);
        }, iter: database == Database.Sqlite ? 6 : 2, threads: 1);
        Assert.True(new Checking(studios.B).Check(cancellation: TestContext.Current.CancellationToken).IsClean);
    }

    /// <summary>A table that is added to the model is carried, or named with a reason.</summary>
    [Fact]
    public void Every_table_of_the_model_is_carried_or_named()
    {
        using var studios = new PackStudios();
        using var db = studios.A.CreateDb();
        var model = RecordModel.Of(db);
        Assert.Equal(db.Model.GetEntityTypes().Select(t => t.ClrType.Name).Order(StringComparer.Ordinal), model.Tables.Select(t => t.RowType.Name).Concat(RecordModel.NotCarried.Keys.Select(t => t.Name)).Order(StringComparer.Ordinal));
        Assert.Equal(["HouseRegion", "ReferenceChronology", "SearchEntry", "ShelfItem", "StoredObject"], RecordModel.NotCarried.Keys.Select(t => t.Name).Order(StringComparer.Ordinal));
        foreach (var type in db.Model.GetEntityTypes().Where(t => model.Tables.Any(m => m.RowType == t.ClrType)))
            Assert.Equal(type.GetProperties().Count() + type.GetComplexProperties().Sum(c => c.ComplexType.GetProperties().Count()), model.Tables.Single(t => t.RowType == type.ClrType).Columns.Count);
    }

    [Fact]
    public void Unpacking_twice_changes_nothing_and_another_record_of_the_painting_is_refused()
    {
        using var studios = new PackStudios();
        var (painting, bag) = studios.PackOne();
        PackStudios.Unpack(studios.B, bag);
        Assert.True(PackStudios.Unpack(studios.B, bag).AlreadyThere);
        using (var db = studios.B.CreateDb())
        {
            db.Paintings.Find(painting)!.Title = "Another title";
            db.SaveChanges();
        }
        Assert.Equal("painting-there", Assert.Throws<Imaging.InputProblem>(() => PackStudios.Unpack(studios.B, bag)).Code);
    }

    private static void AssertAllTablesHaveRows(OpenStudio studio, Guid painting)
    {
        using var db = studio.CreateDb();
        var rows = RecordRows.Read(db, painting);
        Assert.All(rows.Model.Tables, t => Assert.True(rows.Of(t).Count > 0, $"{t.Name} has no rows."));
    }

    /// <summary>What the search looks at is no part of a package; it is made where it is unpacked.</summary>
    private static void AssertCanBeFound(OpenStudio studio, Guid painting)
    {
        using var db = studio.CreateDb();
        IEnumerable<Guid> Standing<TRow>(IQueryable<TRow> rows) where TRow : Written => rows.Where(r => r.PaintingId == painting && r.DeletedAt == null).Select(r => r.Id).ToList();
        Assert.Equal(new[] { Standing(db.Findings), Standing(db.Samples), Standing(db.CleaningTests), Standing(db.MaterialsFound), Standing(db.TreatmentSteps), Standing(db.LogEntries) }.SelectMany(ids => ids).Order(),
            db.SearchEntries.Where(e => e.PaintingId == painting).Select(e => e.SubjectId).ToList().Order());
    }

    private static void AssertSamePayload(string first, string second, string folder)
    {
        if (File.Exists(first))
        {
            using (var zip = ZipFile.OpenRead(first)) zip.ExtractToDirectory(folder);
            first = Directory.GetDirectories(folder).Single();
        }
        string[] Names(string bag) => [.. Directory.GetFiles(Path.Combine(bag, "data"), "*", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(bag, f)).Order(StringComparer.Ordinal)];
        Assert.Equal(Names(first), Names(second));
        Assert.All(Names(first), name => Assert.Equal(File.ReadAllBytes(Path.Combine(first, name)), File.ReadAllBytes(Path.Combine(second, name))));
        Assert.Equal(File.ReadAllText(Path.Combine(first, "manifest-sha512.txt")), File.ReadAllText(Path.Combine(second, "manifest-sha512.txt")));
    }
}
