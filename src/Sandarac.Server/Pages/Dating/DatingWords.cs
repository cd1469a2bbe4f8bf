using Sandarac.Analysis.Spectra.Elements;
using Sandarac.Materials.Dating;
using Sandarac.Studio;
using Sandarac.Studio.Record;
using static Sandarac.Server.Pages.Language.PageText;

namespace Sandarac.Server.Pages.Dating;

/// <summary>How materials and spectra are told on the pages.</summary>
internal static class DatingWords
{
    public static string Of(DatingVerdict verdict) => verdict switch
    {
        DatingVerdict.Consistent => Say("consistent"),
        DatingVerdict.LaterThan => Say("later than the painting"),
        DatingVerdict.EndsBefore => Say("ends before the painting"),
        DatingVerdict.Contested => Say("contested"),
        _ => Say("cannot be told"),
    };

    public static string Of(ElementConfidence confidence) => confidence switch { ElementConfidence.Certain => Say("certain"), ElementConfidence.Probable => Say("probable"), ElementConfidence.Possible => Say("possible"), _ => Say("cannot be told") };

    /// <summary>What was written of a material, entry by entry, as its history shows it.</summary>
    public static Func<MaterialFoundContent, IReadOnlyList<(string Label, string Value)>> Lines(OpenStudio studio, Painting painting)
    {
        var places = Places(studio, painting).ToDictionary(p => p.Value, p => p.Words);
        string Named(Guid? id) => id is { } key ? places.GetValueOrDefault($"{key}", Say("one that is not there any more")) : "";
        return c =>
        [
            (Say("material|history"), c.Material), (Say("layer|history"), Named(c.LayerId)), (Say("zone"), Named(c.ZoneId)), (Say("spectrum|history"), Named(c.SpectrumId)), (Say("confidence"), Findings.FindingWords.Of(c.Confidence)), (Say("by what|history"), c.Basis),
            (Say("later addition"), c.IsLater switch { true => Say("yes"), false => Say("no"), _ => "" }), (Say("note"), c.Note),
        ];
    }

    /// <summary>What was written of a spectrum.</summary>
    public static Func<SpectrumContent, IReadOnlyList<(string Label, string Value)>> SpectrumLines(OpenStudio studio, Painting painting)
    {
        var places = Places(studio, painting).ToDictionary(p => p.Value, p => p.Words);
        string Named(Guid? id) => id is { } key ? places.GetValueOrDefault($"{key}", Say("one that is not there any more")) : "";
        return c => [(Say("name"), c.Name), (Say("file"), c.FileName), (Say("zone"), Named(c.ZoneId)), (Say("layer|history"), Named(c.LayerId)), (Say("told to the analysis"), string.Join("; ", c.Parameters.Select(p => $"{p.Key} {p.Value}"))), (Say("elements|history"), string.Join(", ", c.Elements.Select(e => e.Symbol))), (Say("note"), c.Note)];
    }

    /// <summary>Layers, by sample, that a material or a spectrum may belong to.</summary>
    public static IReadOnlyList<(string Value, string Words)> Layers(OpenStudio studio, Painting painting)
    {
        var samples = new Samples(studio).Of(painting.Id).ToDictionary(s => s.Id, s => s.Content.Number);
        return [.. new SectionLayers(studio).Of(painting.Id).Where(l => samples.ContainsKey(l.Content.SampleId)).Select(l => ($"{l.Id}", Say("sample {0}, layer {1}: {2}", samples[l.Content.SampleId], l.Content.Number, l.Content.Name)))];
    }

    public static IReadOnlyList<(string Value, string Words)> Zones(OpenStudio studio, Painting painting) => [.. new Zones(studio).Of(painting.Id).Where(z => !z.IsCandidate).Select(z => ($"{z.Id}", z.Name))];

    private static IEnumerable<(string Value, string Words)> Places(OpenStudio studio, Painting painting) =>
        Layers(studio, painting).Concat(Zones(studio, painting)).Concat(new Studio.Datings.MeasuredSpectra(studio).Of(painting.Id).Select(s => ($"{s.Id}", s.Content.Name)));
}
