using System.Globalization;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging.Colour;
using Sandarac.Materials;
using Sandarac.Materials.Luminescence;
using Sandarac.Materials.Pigments;

namespace Sandarac.Studio;

/// <summary>A material that a zone's appearance is consistent with.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Reason">How it usually looks, in the table's words.</param>
/// <param name="Source">READ with the source, or MEMORY for what was recalled and not verified.</param>
public sealed record MaterialCandidate(string Name, string Reason, string Source);

/// <summary>What a zone's appearance in one light is consistent with: several materials, or none. It identifies nothing.</summary>
/// <param name="Light">"False colour" or "Luminescence".</param>
/// <param name="Seen">What is seen there, in words.</param>
/// <param name="Candidates">At least two, those that agree best first; none when there is no answer.</param>
/// <param name="NoAnswer">Why there is no answer; null when there is one.</param>
/// <param name="InMixtures">Materials that the zone's visible colour rules out by themselves, but not as parts of a mixture.</param>
/// <param name="Cautions">What whoever reads the list must bear in mind.</param>
public sealed record LightConsistency(string Light, string Seen, IReadOnlyList<MaterialCandidate> Candidates, string? NoAnswer, IReadOnlyList<MaterialCandidate> InMixtures, IReadOnlyList<string> Cautions);

/// <summary>Looks the colours that readings give a zone up in the tables of materials.</summary>
internal static class Consistency
{
    /// <summary>A zone counts as dark when it luminesces less than half of what paint of its colour does around it, as the luminescence reading's own candidates do.</summary>
    private static readonly double Dark = -Math.Log(2);

    /// <summary>Of a zone's values: one entry for each light that a reading has prepared.</summary>
    public static IReadOnlyList<LightConsistency> Of(IReadOnlyList<ValuesOverZone> values) => [.. new[] { FalseColour(values), Luminescence(values) }.OfType<LightConsistency>()];

    private static LightConsistency? FalseColour(IReadOnlyList<ValuesOverZone> values)
    {
        if (Find(values, "-false-colour") is not { Mean: [var r, var g, var b] }) return null;
        // The raster keeps the photographs' tone curves; words and shares are of light.
        var (infrared, red, green) = (Srgb.ToLight(r), Srgb.ToLight(g), Srgb.ToLight(b));
        if (ColourName.FromLinear(infrared, red, green) is not { } name) return null;
        var visible = Visible(values, r: g, g: b);
        var found = PigmentRules.Find($"{name}", Math.Max(0, infrared), visible is null ? null : $"{visible}");
        return Told("False colour", string.Create(CultureInfo.InvariantCulture, $"{name}, infrared {100 * infrared:0} % of white") + (visible is null ? "" : $", in visible light {visible}"), found, p => new MaterialCandidate(p.Entry.Pigment, p.Reason, p.Entry.Source));
    }

    /// <summary>Colour in visible light, as a share of white: false colour holds red and green so, blue comes from the photograph by the same factor. Null without a colour photograph, or where that is black.</summary>
    private static ColourName? Visible(IReadOnlyList<ValuesOverZone> values, double r, double g) =>
        values.FirstOrDefault(v => v.Light == Light.Visible.Code && v.LayerId.StartsWith("p-", StringComparison.Ordinal) && v.Mean.Count >= 3) is { Mean: [var red, var green, var blue, ..] } && red + green > 0
            ? ColourName.FromLinear(Srgb.ToLight(r), Srgb.ToLight(g), Srgb.ToLight(blue * (r + g) / (red + green)))
            : null;

    private static LightConsistency? Luminescence(IReadOnlyList<ValuesOverZone> values)
    {
        if (Find(values, "-corrected") is not { Mean: [var r, var g, var b] } layer || ColourName.FromLinear(r, g, b) is not { } name) return null;
        var dark = Find(values, layer.LayerId[..^"corrected".Length] + "unexplained") is { Mean: [var unexplained] } && unexplained < Dark;
        return Told("Luminescence", dark ? $"{name}, far darker than paint of its colour around it" : $"{name}", LuminescenceRules.Find($"{name}", dark),
            m => new MaterialCandidate(m.Entry.Material, m.Reason, m.Entry.Source.Length > 0 ? $"{m.Entry.Flag}, {m.Entry.Source}" : m.Entry.Flag));
    }

    private static LightConsistency Told<T>(string light, string seen, ConsistentWith<T> found, Func<Match<T>, MaterialCandidate> told) => new(light, seen, [.. found.Candidates.Select(told)], found.NoAnswer, [.. found.InMixtures.Select(told)], found.Cautions);

    private static ValuesOverZone? Find(IReadOnlyList<ValuesOverZone> values, string ending) => values.FirstOrDefault(v => v.LayerId.StartsWith("r-", StringComparison.Ordinal) && v.LayerId.EndsWith(ending, StringComparison.Ordinal));
}
