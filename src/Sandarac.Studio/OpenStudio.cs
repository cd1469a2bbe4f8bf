using System.Reflection;
using Microsoft.EntityFrameworkCore;
using Sandarac.Studio.Record;
using Sandarac.Studio.Storage;

namespace Sandarac.Studio;

/// <summary>
/// One installation's data, opened: a record (SQLite in the folder, or PostgreSQL) and an object store (the folder). Several processes may
/// have one studio open at once: SQLite's WAL and the write-once store allow it.
/// </summary>
public sealed class OpenStudio : IDisposable
{
    private readonly string? _postgres;

    private OpenStudio(string folder, string? postgres, TimeProvider clock)
    {
        Folder = folder;
        Clock = clock;
        _postgres = postgres;
        Objects = new ObjectStore(folder, clock);
    }

    /// <summary>The studio's folder, full path.</summary>
    public string Folder { get; }

    /// <summary>The object store.</summary>
    public ObjectStore Objects { get; }

    /// <summary>Where its times come from.</summary>
    public TimeProvider Clock { get; }

    /// <summary>Version of the program, stored with every run.</summary>
    public static string SoftwareVersion { get; } =
        typeof(OpenStudio).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "unknown";

    internal DateTime Now => Clock.GetUtcNow().UtcDateTime;

    /// <summary>Opens a studio, making it when the folder is new, and brings its tables up to date.</summary>
    /// <param name="folder">The studio's folder.</param>
    /// <param name="postgres">Connection string of a PostgreSQL database for the record; null for SQLite in the folder.</param>
    /// <param name="clock">Where times come from; the system's clock by default.</param>
    /// <exception cref="Imaging.InputProblem">The folder cannot be written, or is something else; the database cannot be reached.</exception>
    public static OpenStudio At(string folder, string? postgres = null, TimeProvider? clock = null)
    {
        var studio = new OpenStudio(Path.GetFullPath(folder), postgres, clock ?? TimeProvider.System);
        using var db = studio.CreateDb();
        db.Database.Migrate();
        return studio;
    }

    /// <summary>A new unit of work on the record; not thread-safe, dispose it.</summary>
    public StudioDb CreateDb() => _postgres is null
        ? SqliteStudioDb.At($"Data Source={Path.Combine(Folder, "studio.db")};Foreign Keys=True;Default Timeout=30")
        : PostgresStudioDb.At(_postgres);

    /// <inheritdoc/>
    public void Dispose()
    {
    }
}
