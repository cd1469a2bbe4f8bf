using Sandarac.Analysis.Declaring;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>The grains of a layer as a run of the reading `particles` measured them.</summary>
/// <param name="Counted">How many there are, those cut off included.</param>
/// <param name="D50">Diameter in the section below which lies half of their area; its note holds the interval and, in um, the word for its fineness. Without a value where there are too few.</param>
/// <param name="Unit">"um", or "px" without a scale.</param>
/// <param name="AreaShare">Share of the layer's area, %: a lower bound.</param>
public sealed record MeasuredGrains(int Counted, Figure D50, string Unit, double? AreaShare)
{
    /// <summary>A layer's; null when nothing stood out of it.</summary>
    /// <param name="run">A run of `particles`.</param>
    /// <param name="layer">Counted from 1 at the bottom.</param>
    public static MeasuredGrains? Of(Run run, int layer)
    {
        Figure? Find(string name) => run.Figures.FirstOrDefault(f => f.Name == name && f.Subject == $"layer {layer}");
        if (Find("grains")?.Value is not { } counted || (Find("d50-area") ?? Find("d50-area-px")) is not { } d50) return null;
        return new MeasuredGrains((int)counted, d50, d50.Name == "d50-area" ? "um" : "px", Find("area-share")?.Value);
    }
}
