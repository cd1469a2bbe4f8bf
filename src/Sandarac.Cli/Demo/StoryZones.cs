using System.Globalization;
using Sandarac.Imaging.Geometry;
using Sandarac.Specimen;
using Sandarac.Studio;

namespace Sandarac.Cli.Demo;

/// <summary>Places that the invented conservator drew on the plane, each once by its name.</summary>
internal sealed class StoryZones(OpenStudio studio, Guid paintingId)
{
    /// <summary>Points of an oval: enough that no corner is seen at the scale of a painting.</summary>
    private const int OvalPoints = 48;

    private readonly Dictionary<string, Guid> _there = Drawn(studio, paintingId);

    /// <summary>The later paint in the sunlit cloud, where sample S1 was taken.</summary>
    public Guid CloudRetouching => Once("retouching in the sunlit cloud", "later addition/retouching", Areas([Oval(SpecimenPlaces.RetouchingsOverVarnish[0])]));

    /// <summary>All other later paint on top of the varnish.</summary>
    public Guid OtherRetouchings => Once("other retouchings over the varnish", "later addition/retouching", Areas([.. SpecimenPlaces.RetouchingsOverVarnish.Skip(1).Select(Oval)]));

    /// <summary>Later paint between the two coats of varnish.</summary>
    public Guid OldRetouchings => Once("retouchings under the later varnish", "later addition/discoloured retouching", Areas([.. SpecimenPlaces.RetouchingsUnderVarnish.Select(Oval)]));

    /// <summary>The trial window of an earlier cleaning.</summary>
    public Guid CleaningWindow => Once("window of an earlier cleaning", "varnish/residue", Areas([Rectangle(SpecimenPlaces.CleaningWindow)]));

    /// <summary>The rim that the earlier cleaning left.</summary>
    public Guid TideLine => Once("tide line about the window", "varnish/uneven gloss", Line(Rectangle(SpecimenPlaces.CleaningWindow)));

    /// <summary>The boat under the sand.</summary>
    public Guid Skiff => Once("shape under the sand", "paint/pentimento", Areas([Rectangle(SpecimenPlaces.GivenUpSkiff)]));

    /// <summary>The finger in the sand.</summary>
    public Guid Fingerprint => Once("print of a finger", "paint/fingerprint", Areas([Oval(SpecimenPlaces.Fingerprint)]));

    /// <summary>The timed test of the varnish removal, in the sky.</summary>
    public Guid TimedPatch => Once("timed test at the upper right", "", Areas([Rectangle(new Box(448, 12, 60, 40))]));

    /// <summary>The flats, below the horizon.</summary>
    public Guid Flats => Once("flats", "", Areas([Rectangle(new Box(0, SpecimenPlaces.Horizon, SpecimenPainting.WidthMm, SpecimenPainting.HeightMm - SpecimenPlaces.Horizon))]));

    /// <summary>The sky in three parts, a day's work each.</summary>
    public IReadOnlyList<Guid> Sky => [Part("left sky", 0, 215), Part("middle sky", 215, 400), Part("right sky", 400, SpecimenPainting.WidthMm)];

    private Guid Part(string name, double left, double right) => Once(name, "", Areas([Rectangle(new Box(left, 0, right - left, SpecimenPlaces.Horizon))]));

    private Guid Once(string name, string kind, string geometry) => _there.TryGetValue(name, out var id) ? id
        : _there[name] = new Zones(studio).Create(paintingId, new ZoneContent(name, kind, Story.Invented, geometry)).Id;

    /// <summary>By the names that they were first given; also those that a person deleted since.</summary>
    private static Dictionary<string, Guid> Drawn(OpenStudio studio, Guid paintingId)
    {
        using var db = studio.CreateDb();
        return db.ZoneChanges.Where(c => c.Revision == 1 && db.Zones.Any(z => z.Id == c.ZoneId && z.PaintingId == paintingId && z.RunId == null)).AsEnumerable().DistinctBy(c => c.Name).ToDictionary(c => c.Name, c => c.ZoneId);
    }

    private static IEnumerable<Point2> Oval(Box box) => Enumerable.Range(0, OvalPoints + 1).Select(i => 2 * Math.PI * (i % OvalPoints) / OvalPoints)
        .Select(turn => new Point2(box.Left + box.Width / 2 * (1 + Math.Cos(turn)), box.Top + box.Height / 2 * (1 + Math.Sin(turn))));

    private static IEnumerable<Point2> Rectangle(Box box) => [new(box.Left, box.Top), new(box.Right, box.Top), new(box.Right, box.Bottom), new(box.Left, box.Bottom), new(box.Left, box.Top)];

    private static string Areas(IReadOnlyList<IEnumerable<Point2>> rings) => $$"""{"type":"MultiPolygon","coordinates":[{{string.Join(',', rings.Select(r => $"[{Points(r)}]"))}}]}""";

    private static string Line(IEnumerable<Point2> points) => $$"""{"type":"LineString","coordinates":{{Points(points)}}}""";

    private static string Points(IEnumerable<Point2> points) => $"[{string.Join(',', points.Select(p => string.Create(CultureInfo.InvariantCulture, $"[{p.X:0.##},{p.Y:0.##}]")))}]";
}
