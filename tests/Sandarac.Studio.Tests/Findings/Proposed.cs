using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests.Findings;

/// <summary>Rows that findings rest on, as readings leave them.</summary>
internal static class Proposed
{
    public const string Square = """{"type":"Polygon","coordinates":[[[10,10],[30,10],[30,20],[10,20],[10,10]]]}""";

    /// <summary>A run of the luminescence reading and a candidate that it proposed.</summary>
    public static Zone Candidate(TemporaryStudio home, Guid paintingId, string name = "Later addition 1", string geometry = Square)
    {
        using var db = home.Studio.CreateDb();
        var run = new Run
        {
            PaintingId = paintingId, Kind = RunKind.Reading, ReadingId = "luminescence", ReadingVersion = 2, Parameters = new Dictionary<string, string>(), Key = Guid.NewGuid().ToString("N"), State = RunState.Done, QueuedAt = DateTime.UtcNow, UserName = "marta", SoftwareVersion = "test",
            Inputs = [new RunSource("uvl", Guid.NewGuid(), "UVL_01.tif", new string('0', 64), "UVL", null, null)],
        };
        var zone = new Zone { PaintingId = paintingId, Name = name, Kind = "later-addition", Geometry = geometry, RunId = run.Id, IsCandidate = true, Confidence = 0.83, Reason = "darker than the varnish about it", CreatedAt = DateTime.UtcNow };
        db.Runs.Add(run);
        db.Zones.Add(zone);
        db.SaveChanges();
        return zone;
    }
}
