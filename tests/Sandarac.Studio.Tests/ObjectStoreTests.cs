using System.Security.Cryptography;
using System.Text;
using Sandarac.Imaging;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests;

public sealed class ObjectStoreTests(PostgresServer server)
{
    // FIPS 180-4, example "abc" (NIST, Examples with Intermediate Values, SHA-256).
    private const string HashOfAbc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

    private static string Write(OpenStudio studio, string content)
    {
        var path = studio.Objects.NewTemporaryPath();
        File.WriteAllText(path, content, new UTF8Encoding(false));
        return path;
    }

    [Fact]
    public void Known_hash_names_the_object()
    {
        using var home = new TemporaryStudio();
        var stored = home.Studio.Objects.Adopt(Write(home.Studio, "abc"), null, "text/plain", isDerived: false);
        Assert.Equal((HashOfAbc, 3L), (stored.Sha256, stored.Bytes));
        Assert.Equal(Path.Combine(home.Folder, "objects", "ba", HashOfAbc[2..]), home.Studio.Objects.PathOf(HashOfAbc));
        using var reader = new StreamReader(home.Studio.Objects.OpenRead(HashOfAbc, verify: true));
        Assert.Equal("abc", reader.ReadToEnd());
    }

    [Fact]
    public void The_first_file_stays_and_no_temporary_file_remains()
    {
        using var home = new TemporaryStudio();
        var objects = home.Studio.Objects;
        objects.Adopt(Write(home.Studio, "abc"), null, "text/plain", isDerived: false);
        var first = File.GetLastWriteTimeUtc(objects.PathOf(HashOfAbc));
        objects.Adopt(Write(home.Studio, "abc"), HashOfAbc, "text/plain", isDerived: false);
        objects.Confirm(HashOfAbc);
        Assert.Equal(first, File.GetLastWriteTimeUtc(objects.PathOf(HashOfAbc)));
        Assert.Empty(Directory.GetFiles(Path.Combine(home.Folder, "incoming")));
    }

    [Fact]
    public void Threads_storing_the_same_and_other_content_all_succeed()
    {
        using var home = new TemporaryStudio();
        var stored = Enumerable.Range(0, 40).AsParallel().WithDegreeOfParallelism(8)
            .Select(i => home.Studio.Objects.Adopt(Write(home.Studio, $"content {i % 5}"), null, "text/plain", isDerived: false).Sha256).ToHashSet();
        Assert.Equal(5, stored.Count);
        Assert.All(stored, sha => home.Studio.Objects.OpenRead(sha, verify: true).Dispose());
    }

    [Fact]
    public void Damage_is_found_when_asked_for()
    {
        using var home = new TemporaryStudio();
        home.Studio.Objects.Adopt(Write(home.Studio, "abc"), null, "text/plain", isDerived: false);
        File.WriteAllText(home.Studio.Objects.PathOf(HashOfAbc), "abd");
        Assert.Equal("object-damaged", Assert.Throws<InputProblem>(() => home.Studio.Objects.OpenRead(HashOfAbc, verify: true)).Code);
        var other = Convert.ToHexStringLower(SHA256.HashData("other"u8));
        Assert.Equal("object-missing", Assert.Throws<InputProblem>(() => home.Studio.Objects.OpenRead(other)).Code);
    }

    [Theory]
    [InlineData("../../../etc/passwd")]
    [InlineData("")]
    [InlineData("BA7816BF8F01CFEA414140DE5DAE2223B00361A396177A9CB410FF61F20015AD")]
    public void Invalid_names_never_become_paths(string name)
    {
        using var home = new TemporaryStudio();
        Assert.Throws<ArgumentException>(() => home.Studio.Objects.PathOf(name));
    }

    [Theory, EachDatabase]
    public void Two_that_make_the_same_object_at_the_same_moment_both_save(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        home.AddPainting();
        Parallel.For(0, 16, i =>
        {
            var stored = home.Studio.Objects.Adopt(Write(home.Studio, $"content {i % 2}"), null, "text/plain", isDerived: true);
            using var db = home.Studio.CreateDb();
            db.Paintings.Add(new Record.Painting { Title = $"{i}", CreatedAt = DateTime.UtcNow });
            Record.Saving.SaveWithObjects(db, [stored]);
        });
        using var read = home.Studio.CreateDb();
        Assert.Equal((2, 17), (read.Objects.Count(), read.Paintings.Count()));
    }
}
