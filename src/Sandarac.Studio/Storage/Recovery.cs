using Sandarac.Studio.Record;

namespace Sandarac.Studio.Storage;

/// <summary>Puts a studio in order after a process ended in the middle of something; part of opening a studio.</summary>
internal static class Recovery
{
    /// <summary>Removes what ended processes left on its way in: unfinished files, and objects of which the record never came to speak.
    /// The caller holds the store's lock.</summary>
    public static void Sweep(ObjectStore objects, StudioDb db)
    {
        var left = Leftovers(objects).ToLookup(l => l.IsDead);
        foreach (var (path, name, _) in left[true])
        {
            if (name.Length == 64 && objects.Contains(name) && !left[false].Any(l => l.Name == name) && !db.Objects.Any(o => o.Sha256 == name))
                File.Delete(objects.PathOf(name));
            File.Delete(path);
        }
    }

    /// <summary>Runs of ended processes become interrupted: nothing of them was kept.</summary>
    public static void MarkInterrupted(StudioDb db, DateTime now)
    {
        foreach (var run in db.Runs.Where(r => r.State == RunState.Running).AsEnumerable().Where(r => r.Owner is { } o && Owner.Parse(o) is { IsDead: true }))
        {
            run.State = RunState.Interrupted;
            run.EndedAt = now;
        }
        db.SaveChanges();
    }

    /// <summary>Files in the incoming folder: path, what follows the owner's name (an object's hash for marks), and whether the owner has ended.</summary>
    internal static IEnumerable<(string Path, string Name, bool IsDead)> Leftovers(ObjectStore objects)
    {
        foreach (var path in Directory.EnumerateFiles(objects.Incoming).Order(StringComparer.Ordinal))
        {
            var parts = Path.GetFileName(path).Split('-', 2);
            yield return (path, parts.Length == 2 ? parts[1] : "", Owner.Parse($"{parts[0]}@{Environment.MachineName}") is not { IsDead: false });
        }
    }
}
