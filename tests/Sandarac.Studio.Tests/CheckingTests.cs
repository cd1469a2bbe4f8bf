using Microsoft.EntityFrameworkCore;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests;

public sealed class CheckingTests(PostgresServer server)
{
    [Theory, EachDatabase]
    public void Missing_damaged_and_orphaned_objects_are_told_with_what_they_belong_to(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var folder = Path.Combine(home.Root, "photographs");
        SmallPhotographs.WriteSet(folder);
        var photographs = new Examining(home.Studio).Examine(folder, new ExamineOptions { HeightMm = 100, WidthMm = 117, CornersOnly = true }, cancellation: TestContext.Current.CancellationToken).Photographs;
        var clean = Check(home);
        Assert.True(clean.IsClean);
        Assert.True(clean.Objects > 9 && clean.Bytes > 9 * 400_000);
        home.Studio.Dispose();
        var (ir, uvl, vis) = (photographs[0], photographs[1], photographs[2]);
        File.Delete(home.Studio.Objects.PathOf(ir.Sha256));
        using (var file = File.Open(home.Studio.Objects.PathOf(uvl.Sha256), FileMode.Open))
        {
            // One bit of a photograph's last sample.
            file.Seek(100_000, SeekOrigin.Begin);
            var value = file.ReadByte();
            file.Seek(-1, SeekOrigin.Current);
            file.WriteByte((byte)(value ^ 1));
        }
        File.AppendAllText(home.Studio.Objects.PathOf(vis.Pyramid!.Sha256), "x");
        Directory.CreateDirectory(Path.Combine(home.Folder, "objects", "zz"));
        File.WriteAllText(Path.Combine(home.Folder, "objects", "zz", "letter.txt"), "a letter");
        using (var db = home.Studio.CreateDb())
        {
            db.Objects.Add(new Record.StoredObject { Sha256 = new string('0', 64), Bytes = 1, MediaType = "image/tiff", CreatedAt = DateTime.UtcNow, IsDerived = true });
            db.SaveChanges();
        }
        var report = Check(home);
        Assert.Equal(
            ["missing an object that nothing refers to", "missing IR_01.tif, original", "damaged UVL_01.tif, original", "damaged VIS_01.tif, pyramid", "damaged an object that nothing refers to", "orphaned a file in the store that the record does not know"],
            report.Findings.Select(f => $"{f.Kind} {f.Subject}"), Comparer);
        Assert.All(report.Findings, f => Assert.NotEmpty(f.Remedy));
    }

    private static readonly IEqualityComparer<IEnumerable<string>> Comparer =
        EqualityComparer<IEnumerable<string>>.Create((a, b) => a!.Order(StringComparer.Ordinal).SequenceEqual(b!.Order(StringComparer.Ordinal)), a => a.Count());

    private static CheckReport Check(TemporaryStudio home) => new Checking(home.Studio).Check(cancellation: TestContext.Current.CancellationToken);
}
