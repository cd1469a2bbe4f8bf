using Sandarac.Specimen.Output;

namespace Sandarac.Specimen.Sections;

/// <summary>Layer boundaries and particles of one section, in um from the micrograph's upper left corner, y down.</summary>
internal static class SectionTruth
{
    /// <summary>Smaller particles cannot be told from the matrix at 0.25 um a pixel and blur.</summary>
    private const float SmallestListedUm = 1.5f;

    public static void Write(string path, SectionSite site, Stack stack, IReadOnlyList<Particle> particles)
    {
        var top = stack.Layers[^1].Top.Max() + Micrograph.ResinAboveUm;
        WholeFile.WriteJson(path, new
        {
            name = site.Name,
            why = site.Why,
            plane = new { fromXMm = site.X, toXMm = site.X + SectionSite.LengthMm, yMm = site.Y },
            umPerPixel = Micrograph.UmPerPixel,
            unit = "um, origin at the micrograph's upper left corner, x right, y down; bottom layer first",
            brokenEdge = Line(stack.Base, top),
            layers = stack.Layers.Select((l, n) => new
            {
                number = n + 1,
                stackNumber = l.Note.Number,
                name = l.Note.Name,
                meaning = l.Note.Meaning,
                recipe = l.Note.Paint.Recipe.Select(r => new { body = r.Body, share = Math.Round(r.Share, 3) }),
                meanThicknessUm = Math.Round(l.Top.Zip(n > 0 ? stack.Layers[n - 1].Top : stack.Floor, (t, u) => t - u).Average(), 3),
                planeThicknessUm = l.At.Um.Select(v => Math.Round(v, 3)),
                upperBoundary = Line(l.Top, top),
            }),
            particles = particles.Where(p => p.DiameterUm >= SmallestListedUm).Select(p => new
            {
                layer = p.Layer + 1, body = p.Body, x = Math.Round(p.X, 2), y = Math.Round(top - p.Y, 2),
                    diameter = Math.Round(p.DiameterUm, 2),
                aspect = Math.Round(p.Aspect, 2), angle = Math.Round(p.AngleDegrees, 1),
            }),
        });
    }

    private static IEnumerable<double[]> Line(float[] heights, float top) =>
        heights.Select((h, c) => new[] { Math.Round(c * (double)Stack.StepUm, 2), Math.Round(top - h, 3) });
}
