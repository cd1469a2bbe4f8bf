using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;
using Sandarac.Studio.Examine;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Suggests photographs for a reading that a person wants to run without choosing them.</summary>
public sealed class SuggestedInputs(OpenStudio studio)
{
    /// <summary>For each of the reading's inputs the best photographs, as many as it takes, with their even boards; inputs for which there are none are left out.</summary>
    /// <exception cref="InputProblem">"unknown-painting"; "unknown-reading".</exception>
    public IReadOnlyDictionary<string, IReadOnlyList<Guid>> Of(Guid paintingId, string readingId)
    {
        var declaration = ReadingCatalogue.Find(readingId).Declaration;
        using var db = studio.CreateDb();
        db.RequirePainting(paintingId);
        var photographs = db.PhotographsOf(paintingId);
        var usable = photographs.Where(p => !declaration.OnPlane || p.Alignments.InForce() is { PlaneImage: not null }).ToList();
        var chosen = declaration.Inputs.Where(s => s.BoardOf is null).ToDictionary(s => s.Name, s => InputChoice.AllOf(s, usable));
        return InputChoice.WithBoards(declaration, chosen, photographs).Where(c => c.Value.Count > 0).ToDictionary();
    }
}
