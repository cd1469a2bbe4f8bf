using Sandarac.Imaging.Geometry;
using Sandarac.Specimen.Cameras;
using Sandarac.Specimen.Output;

namespace Sandarac.Specimen.Sections;

/// <summary>Layer boundaries and particles of an invented section, in the micrograph's pixels.</summary>
internal static class SectionSpecimenTruth
{
    public static void Write(string path, int seed, InventedSection section, IReadOnlyList<Particle> particles, float topUm, Pose pose, Pose? electrons)
    {
        var stack = section.Stack;
        // Columns in which all boundaries are in the frame: so that they can be compared place by place.
        int[] columns = [.. Enumerable.Range(0, stack.Columns).Where(c => c * Stack.StepUm >= stack.Ends.From && c * Stack.StepUm <= stack.Ends.To
            && stack.Layers.Select(l => l.Top).Append(stack.Base).All(h => Inside(Pixel(c * Stack.StepUm, h[c], topUm, pose), pose)))];
        WholeFile.WriteJson(path, new
        {
            seed,
            unit = "pixels of the micrographs, origin at the upper left corner, x right, y down; bottom layer first",
            width = pose.Width,
            height = pose.Height,
            umPerPixel = section.UmPerPixel,
            turnDegrees = Math.Round(section.TurnDegrees, 3),
            obliquityDegrees = section.ObliquityDegrees,
            electrons = electrons is null ? null : new
            {
                width = electrons.Width,
                height = electrons.Height,
                toVisible = new Homography(pose.Map.PixelToPlane).Inverse().After(new Homography(electrons.Map.PixelToPlane)).Coefficients.Select(c => Math.Round(c, 9)),
            },
            brokenEdge = Line(columns, stack.Base, topUm, pose),
            layers = stack.Layers.Select((l, n) => new
            {
                number = n + 1,
                name = l.Note.Name,
                bodies = l.Note.Paint.Recipe.Select(r => r.Body),
                upperBoundary = Line(columns, l.Top, topUm, pose),
            }),
            particles = particles.Select(p => (p, At: Pixel(p.X, p.Y, topUm, pose))).Where(x => Inside(x.At, pose)).Select(x => new
            {
                layer = x.p.Layer + 1, body = x.p.Body, x = Math.Round(x.At.X, 2), y = Math.Round(x.At.Y, 2), diameter = Math.Round(x.p.DiameterUm / section.UmPerPixel, 2),
            }),
        });
    }

    private static IEnumerable<double[]> Line(int[] columns, float[] heights, float topUm, Pose pose) => columns
        .Select(c => Pixel(c * Stack.StepUm, heights[c], topUm, pose)).Select(p => new[] { Math.Round(p.X, 3), Math.Round(p.Y, 3) });

    private static Point2 Pixel(double um, double height, double topUm, Pose pose) => pose.Map.ToPixel(new Point2(um / 1000, (topUm - height) / 1000));

    private static bool Inside(Point2 p, Pose pose) => p.X >= 0 && p.Y >= 0 && p.X <= pose.Width && p.Y <= pose.Height;
}
