using Sandarac.Analysis.Teaching;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Colour;
using Sandarac.Imaging.Formats;

namespace Sandarac.Analysis.Tests.Teaching;

/// <summary>A real painting in near infrared through a polariser at four angles; what is dark, blue or warm in it is known from a colour photograph that the reading does not see.</summary>
public class RealPaintingTeachingTests
{
    private const double AssumedMmPerPixel = 0.5;
    private const int Length = 12, Apart = 40, Touched = 6;

    private static readonly (string Name, Func<CieLab, bool> Is)[] Classes = [("dark", c => c.L < 10), ("blue", c => c.L > 20 && c.B < -15), ("warm", c => c.L > 20 && c.B > 10)];

    /// <summary>Ten horizontal strokes a class, by rule; where none is near, dark paint is recognised, and the classes together as well as the reading says of itself.</summary>
    [Fact]
    public void Taught_on_a_real_painting_it_does_as_well_as_it_says()
    {
        using var picture = ImageFile.Open(SharedData.Require("multiband", "sRGB.tif"));
        var colours = picture.ReadWindow(0, 0, picture.Facts.Width, picture.Facts.Height);
        CieLab[] lab = [.. Enumerable.Range(0, colours[0].Data.Length).Select(i => Smooth(colours, i % colours[0].Width, i / colours[0].Width))];
        bool Holds(int k, int x, int y) => x >= 16 && y >= 16 && x < colours[0].Width - 16 && y < colours[0].Height - 16 && Classes[k].Is(lab[y * colours[0].Width + x]);
        var strokes = Enumerable.Range(0, Classes.Length).SelectMany(k => Strokes(k, colours[0].Width, colours[0].Height, Holds)).ToList();
        var (outcome, rasters) = TestRun.Of(new TaughtZonesReading(), [.. ((string[])["0", "45", "90", "135"]).Select(a => ("layers", TestRun.Open(SharedData.Require("multiband", "Raw", $"NIR_filtre_nir_{a}_aligned.tif"), null, AssumedMmPerPixel)))],
            new() { ["marks"] = GeoJson(strokes), ["marks-unit"] = "px", ["trees"] = "40" });
        var recognised = new double[Classes.Length];
        for (var k = 0; k < Classes.Length; k++)
        {
            var judged = from y in Enumerable.Range(0, colours[0].Height) from x in Enumerable.Range(0, colours[0].Width) where Holds(k, x, y) && !strokes.Any(s => s.Touches(x, y)) select (x, y);
            recognised[k] = judged.Average(p => Enumerable.Range(0, Classes.Length).MaxBy(c => rasters[$"probability-{c + 1}"][0][p.x, p.y]) == k ? 1.0 : 0);
        }
        var says = outcome.Figures.Single(f => f.Name == "balanced-accuracy");
        Assert.InRange(recognised[0], 0.9, 1);
        Assert.InRange(Math.Abs(says.Value!.Value - 100 * recognised.Average()), 0, says.Uncertainty!.Value);
    }

    private sealed record Stroke(int Class, int X, int Y)
    {
        public bool Touches(int x, int y) => x > X - Touched && x < X + Length + Touched && Math.Abs(y - Y) < Touched;
    }

    /// <summary>From lattice points in an order by chance: those that lie wholly in the class, and apart.</summary>
    private static IEnumerable<Stroke> Strokes(int k, int width, int height, Func<int, int, int, bool> holds)
    {
        var places = (from y in Enumerable.Range(1, height / 8 - 2) from x in Enumerable.Range(1, width / 8 - 4) select new Stroke(k, 8 * x, 8 * y)).ToArray();
        new Random(1).Shuffle(places);
        var taken = new List<Stroke>();
        foreach (var s in places)
            if (taken.All(t => Math.Abs(t.X - s.X) > Apart || Math.Abs(t.Y - s.Y) > Apart) && Enumerable.Range(-1, Length + 2).All(u => holds(k, s.X + u, s.Y - 1) && holds(k, s.X + u, s.Y) && holds(k, s.X + u, s.Y + 1))) taken.Add(s);
        return taken.Take(10);
    }

    private static CieLab Smooth(Plane[] colours, int x, int y)
    {
        double Mean(Plane band) => (from v in Enumerable.Range(y - 1, 3) from u in Enumerable.Range(x - 1, 3) where u >= 0 && v >= 0 && u < band.Width && v < band.Height select Srgb.ToLight(band[u, v] / 255)).Average();
        return CieLab.FromLinear(Mean(colours[0]), Mean(colours[1]), Mean(colours[2]));
    }

    private static string GeoJson(IEnumerable<Stroke> strokes) => "{\"type\":\"FeatureCollection\",\"features\":[" + string.Join(',', strokes.Select(s => FormattableString.Invariant(
        $"{{\"type\":\"Feature\",\"properties\":{{\"class\":\"{Classes[s.Class].Name}\"}},\"geometry\":{{\"type\":\"LineString\",\"coordinates\":[[{s.X},{s.Y + 0.5}],[{s.X + Length},{s.Y + 0.5}]]}}}}"))) + "]}";
}
