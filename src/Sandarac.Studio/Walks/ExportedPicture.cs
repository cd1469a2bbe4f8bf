using Sandarac.Analysis.Lights;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Walking;

/// <summary>A picture of an export: a layer on the plane, or a measured surface under a lamp.</summary>
/// <param name="Key">Its folder: letters, digits and hyphens.</param>
/// <param name="Label">"VIS, visible", "RAK, raking, lamp at the top"; each once in an export.</param>
/// <param name="Layer">The layer; of a surface its normals.</param>
/// <param name="Lamp">Where the lamp stands that lights the surface; null for a layer as it is.</param>
internal sealed record ExportedPicture(string Key, string Label, Layer Layer, StepLamp? Lamp);

/// <summary>Chooses and names the pictures of an export.</summary>
internal static class ExportedPictures
{
    /// <summary>A photograph that misses more of the face's width or height than this shows a part.</summary>
    private const double Missing = 0.02;

    /// <summary>Whether a layer goes into every export: photographs of the whole face, and what was computed to be looked at as a light (mosaics, false colour).</summary>
    public static bool IsAlwaysShown(Layer layer, Painting painting) => layer is { OnPlane: true, Light: not null, Classes: null } && layer.Extent.Width >= (1 - Missing) * painting.WidthMm
        && layer.Extent.Height >= (1 - Missing) * painting.HeightMm && layer.MmPerPixel < painting.WidthMm / 100;

    /// <summary>Names the layers, and after them the lamps; two that would be called alike get their files' names too.</summary>
    public static IReadOnlyList<ExportedPicture> Name(IReadOnlyList<Layer> layers, IReadOnlyList<(Layer Normals, StepLamp Lamp)> lit)
    {
        var plain = layers.Select(l => (Layer: l, Lamp: (StepLamp?)null, Label: Label(l))).Concat(lit.Select(s => (s.Normals, (StepLamp?)s.Lamp, Label: LitLabel(s.Lamp)))).ToList();
        var often = plain.CountBy(p => p.Label).Where(c => c.Value > 1).Select(c => c.Key).ToHashSet();
        List<ExportedPicture> named = [];
        foreach (var (layer, lamp, label) in plain)
        {
            var text = often.Contains(label) ? $"{label} ({layer.Label})" : label;
            named.Add(new ExportedPicture(Key(layer, lamp, named), text, layer, lamp));
        }
        return named;
    }

    private static string Label(Layer layer)
    {
        var doubt = layer.Verdict == Verdict.Uncertain ? ", alignment uncertain" : "";
        if (layer.IsReading) return $"{(layer.Light is { } code ? $"{code}, " : "")}{layer.Label}{doubt}";
        string[] parts = [layer.Light ?? "light unknown", layer.Light is { } light ? Light.Find(light)?.Name ?? "" : layer.Label, layer.Detail];
        return string.Join(", ", parts.Where(p => p.Length > 0)) + doubt;
    }

    private static string LitLabel(StepLamp lamp) => FormattableString.Invariant($"Measured surface, lit at {lamp.AzimuthDeg:0.#} degrees clockwise from the top, {lamp.ElevationDeg:0.#} above the plane; slopes exaggerated {RelitSurface.Times:0} times");

    private static string Key(Layer layer, StepLamp? lamp, List<ExportedPicture> taken)
    {
        var from = lamp is null ? layer.Light ?? layer.Label : "surface";
        var plain = string.Concat(from.Select(c => char.IsAsciiLetterOrDigit(c) ? char.ToLowerInvariant(c) : '-')).Trim('-');
        if (plain.Length == 0) plain = "picture";
        return Enumerable.Range(1, taken.Count + 1).Select(n => n == 1 ? plain : FormattableString.Invariant($"{plain}-{n}")).First(k => taken.All(t => t.Key != k));
    }
}
