using Sandarac.Analysis.Alignment.Rulers;
using Sandarac.Analysis.Declaring;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Jobs;

/// <summary>A ruler in a photograph.</summary>
/// <param name="Photograph">The photograph.</param>
/// <param name="Scale">Where it lies and what it gives.</param>
internal sealed record RulerInPhotograph(Photograph Photograph, RulerScale Scale);

/// <summary>From a run of the ruler-finding reading to the ruler.</summary>
internal static class RulerFinding
{
    public const string ReadingId = "ruler-scale";

    /// <summary>The ruler; null when there is none.</summary>
    public static RulerScale? Of(Run run) => run.State == RunState.Done ? RulerScale.Of(new Outcome { Figures = run.Figures }) : null;
}
