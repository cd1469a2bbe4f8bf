using Sandarac.Specimen;
using Sandarac.Studio;
using Sandarac.Studio.Datings;
using Sandarac.Studio.Record;

namespace Sandarac.Cli.Demo;

/// <summary>Materials found, two of them in later paint, and the spectrum that one of them is read from.</summary>
internal static class StoryMaterials
{
    public static void Write(OpenStudio studio, Guid paintingId)
    {
        var (materials, zones) = (new MaterialsFound(studio), new StoryZones(studio, paintingId));
        var spectrum = Spectrum(studio, paintingId, zones.CloudRetouching);
        MaterialFoundContent[] all =
        [
            new() { Material = "titanium white (rutile)", Confidence = Certainty.Probable, Basis = $"white grains below 1 um in sample S1; Raman, 785 nm, {Story.Laboratory}", LayerId = StorySamples.TopLayer(studio, paintingId), ZoneId = zones.CloudRetouching, SpectrumId = spectrum },
            new() { Material = "Prussian blue", Confidence = Certainty.Possible, Basis = "dark blue, strongly staining grains under the stereo microscope", ZoneId = zones.OldRetouchings },
            new() { Material = "smalt", Confidence = Certainty.Probable, Basis = "pale, angular, glassy blue grains under the stereo microscope", ZoneId = zones.Sky[0], IsLater = false },
            new() { Material = "lead-tin yellow type I", Confidence = Certainty.Possible, Basis = "opaque pale yellow of the last accents, by eye", IsLater = false },
            new() { Material = "lead white", Confidence = Certainty.Probable, Basis = "stops X-rays; white layer under the sand in sample S2", ZoneId = zones.Skiff, IsLater = false },
        ];
        foreach (var material in all) materials.Once(paintingId, material with { Note = Story.Invented }, m => m.Material);
    }

    private static Guid Spectrum(OpenStudio studio, Guid paintingId, Guid zone)
    {
        var (spectra, file, patch) = (new MeasuredSpectra(studio), "demo_P1.msa", SpecimenPlaces.RetouchingsOverVarnish[0]);
        return (spectra.First(paintingId, s => s.FileName == file) ?? spectra.Take(paintingId, DrawnSpectrum.Emsa("P1, invented for the demonstration"), file, new SpectrumContent
        {
            Name = "P1, retouching in the sunlit cloud", X = patch.Left + patch.Width / 2, Y = patch.Top + patch.Height / 2, ZoneId = zone, Note = $"{Story.Invented} Drawn from tabled lines, measured on nothing.",
            Parameters = new Dictionary<string, string> { ["anode"] = DrawnSpectrum.Anode },
        }, Story.Conservator)).Id;
    }
}
