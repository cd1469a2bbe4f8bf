using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests;

public sealed class OpeningTests(PostgresServer server)
{
    [Theory, EachDatabase]
    public void A_painting_is_there_after_a_restart_and_migrations_are_complete(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var made = home.AddPainting();
        using var db = home.Reopen().CreateDb();
        var read = db.Paintings.Single();
        Assert.Equal((made.Id, made.Title, ScaleOrigin.Measured, made.CreatedAt, DateTimeKind.Utc), (read.Id, read.Title, read.SizeOrigin, read.CreatedAt, read.CreatedAt.Kind));
        Assert.Empty(db.Database.GetPendingMigrations());
        Assert.False(db.Database.HasPendingModelChanges());
    }

    [Theory, EachDatabase]
    public void Runs_of_a_process_that_ended_become_interrupted_and_those_of_a_living_one_stay(Database database)
    {
        using var home = new TemporaryStudio(database, server);
        var painting = home.AddPainting();
        var living = Storage.Owner.This.ToString();
        var dead = Storage.Owner.This with { StartedAt = Storage.Owner.This.StartedAt - 1000 };
        AddRunning(home, painting, living);
        AddRunning(home, painting, dead.ToString());
        AddRunning(home, painting, "1.1@another machine");
        using var db = home.Reopen().CreateDb();
        var states = db.Runs.ToDictionary(r => r.Owner!, r => r.State);
        Assert.Equal((RunState.Running, RunState.Interrupted, RunState.Running), (states[living], states[dead.ToString()], states["1.1@another machine"]));
    }

    [Fact]
    public void What_ended_processes_left_is_removed_and_what_living_ones_write_is_not()
    {
        using var home = new TemporaryStudio();
        var incoming = Path.Combine(home.Folder, "incoming");
        var living = home.Studio.Objects.NewTemporaryPath();
        File.WriteAllText(living, "being written");
        File.WriteAllText(Path.Combine(incoming, "1.1-0123"), "left");
        // An object in place of which the record never came to speak, and its mark.
        var orphan = new string('a', 64);
        Directory.CreateDirectory(Path.GetDirectoryName(home.Studio.Objects.PathOf(orphan))!);
        File.WriteAllText(home.Studio.Objects.PathOf(orphan), "whole, but unknown");
        File.WriteAllText(Path.Combine(incoming, $"1.1-{orphan}"), "");
        home.Reopen();
        Assert.Equal([living], Directory.GetFiles(incoming));
        Assert.False(home.Studio.Objects.Contains(orphan));
    }

    [Fact]
    public void A_migration_lock_left_by_a_killed_process_does_not_block()
    {
        using var home = new TemporaryStudio();
        home.Studio.Dispose();
        foreach (var file in Directory.GetFiles(home.Folder, "studio.db*")) File.Delete(file);
        using (var connection = new SqliteConnection($"Data Source={Path.Combine(home.Folder, "studio.db")};Pooling=False"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = """
                CREATE TABLE IF NOT EXISTS "__EFMigrationsLock" ("Id" INTEGER NOT NULL PRIMARY KEY, "Timestamp" TEXT NOT NULL);
                INSERT INTO "__EFMigrationsLock" VALUES (1, '2026-01-01');
                """;
            command.ExecuteNonQuery();
        }
        home.Reopen();
        Assert.NotEqual(Guid.Empty, home.AddPainting().Id);
    }

    [Fact]
    public void Two_may_have_one_studio_open_and_see_each_others_work()
    {
        using var home = new TemporaryStudio();
        using var second = home.Open();
        var painting = home.AddPainting();
        using var db = second.CreateDb();
        Assert.Equal(painting.Id, db.Paintings.Single().Id);
    }

    [Fact]
    public void Invalid_folders_are_refused_untouched()
    {
        var root = Directory.CreateTempSubdirectory("studio-test-").FullName;
        try
        {
            File.WriteAllText(Path.Combine(root, "letter.txt"), "not a studio");
            Assert.Equal("not-a-studio", Assert.Throws<InputProblem>(() => OpenStudio.At(root)).Code);
            Assert.Equal("studio-folder", Assert.Throws<InputProblem>(() => OpenStudio.At(Path.Combine(root, "letter.txt"))).Code);
            Assert.Equal(["letter.txt"], Directory.GetFileSystemEntries(root).Select(Path.GetFileName));
        }
        finally
        {
            Directory.Delete(root, recursive: true);
        }
    }

    [Fact]
    public void A_database_that_is_none_is_an_input_problem()
    {
        using var home = new TemporaryStudio();
        home.Studio.Dispose();
        File.WriteAllText(Path.Combine(home.Folder, "studio.db"), new string('x', 5000));
        Assert.Equal("studio-database", Assert.Throws<InputProblem>(() => home.Open()).Code);
    }

    private static void AddRunning(TemporaryStudio home, Painting painting, string owner)
    {
        using var db = home.Studio.CreateDb();
        db.Runs.Add(new Run
        {
            PaintingId = painting.Id, Kind = RunKind.Reading, ReadingId = "x", ReadingVersion = 1, Parameters = new Dictionary<string, string>(), Inputs = [],
            Key = "", SoftwareVersion = "", UserName = "", QueuedAt = DateTime.UtcNow, State = RunState.Running, Owner = owner,
        });
        db.SaveChanges();
    }
}
