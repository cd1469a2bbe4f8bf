using System.Globalization;
using Sandarac.Specimen;
using Sandarac.Studio;
using Sandarac.Studio.BuildUp;
using Sandarac.Studio.Record;

namespace Sandarac.Cli.Demo;

/// <summary>The two samples with their micrographs. The layers of one and their thicknesses are what the reading `layers` finds; what each is, the conservator says who looked at it.</summary>
internal static class StorySamples
{
    private static readonly DateOnly TakenOn = new(2024, 3, 12);

    /// <summary>The sample whose layers are on record; those of the other are left to whoever looks.</summary>
    public const string Measured = "S1";

    /// <summary>What is seen in it, from the bottom up.</summary>
    private static readonly (string Name, StageKind Kind)[] Seen =
        [("ground", StageKind.Ground), ("priming", StageKind.Priming), ("sky", StageKind.Paint), ("cloud", StageKind.Paint), ("aged varnish", StageKind.Varnish), ("later varnish", StageKind.Varnish), ("retouching over the varnish", StageKind.Intervention)];

    public static void Write(OpenStudio studio, Guid paintingId)
    {
        var samples = new Samples(studio);
        foreach (var (number, at, why) in SpecimenPlaces.Samples)
        {
            var sample = samples.Once(paintingId, new SampleContent
            {
                Number = number, X = at.X, Y = at.Y, Why = why, AuthorisedBy = $"{Story.Custodian}, {Story.Owner}", TakenBy = Story.Conservator, TakenOn = TakenOn, Site = SampleSite.ExistingDamage,
                Tool = "scalpel", Size = "0.6 mm", Form = "flake", Resin = "polyester", Storage = $"box 1 of the demonstration. {Story.Invented}", Micrographs = Micrographs(samples, paintingId, number),
            }, s => s.Number);
            if (number != Measured) continue;
            Measure(studio, sample);
            Name(studio, sample);
        }
    }

    /// <summary>The topmost layer of the measured sample; null when the reading found none.</summary>
    public static Guid? TopLayer(OpenStudio studio, Guid paintingId) => new Samples(studio).First(paintingId, s => s.Number == Measured) is { } sample ? Layers(studio, sample).LastOrDefault()?.Id : null;

    private static IReadOnlyList<Guid> Micrographs(Samples samples, Guid paintingId, string number) => [.. samples.Loose(paintingId).Where(l => l.Name == number).SelectMany(l => l.Photographs).Select(p => p.Id)];

    /// <summary>Runs the reading and takes its layers over where the sample has none yet.</summary>
    private static void Measure(OpenStudio studio, Sample sample)
    {
        if (Layers(studio, sample).Count > 0 || new SectionDesk(studio).Sources(sample) is not { Problem: null } sources) return;
        var running = new Running(studio);
        var run = running.Execute(running.Queue(new RunRequest(sample.PaintingId, SectionDesk.Layers, new Dictionary<string, string>(), sources.Inputs, Story.Conservator)).Id);
        if (run.State == RunState.Done) new TakingOver(studio).TakeOver(sample.Id, run.Id, Story.Conservator);
    }

    /// <summary>Names layers that nobody wrote on yet, where the reading found as many as are seen: where it did not, which is which is left open.</summary>
    private static void Name(OpenStudio studio, Sample sample)
    {
        var (layers, stages) = (Layers(studio, sample), new Stages(studio));
        if (layers.Count != Seen.Length) return;
        foreach (var (layer, (name, kind)) in layers.Zip(Seen).Where(p => p.First.Revision == 1))
        {
            var stage = stages.Once(sample.PaintingId, new StageContent { Name = name, Kind = kind, Note = Story.Invented }, s => s.Name);
            new SectionLayers(studio).Change(layer.Id, 1, layer.Content with { Name = name, StageId = stage.Id, Interpretation = Story.Invented }, Story.Conservator);
        }
    }

    /// <summary>Whole layers from the bottom up, without the parts of one.</summary>
    private static List<SectionLayer> Layers(OpenStudio studio, Sample sample) => [.. new SectionLayers(studio).BySample(sample.PaintingId)[sample.Id].Where(l => int.TryParse(l.Content.Number, CultureInfo.InvariantCulture, out _))];
}
