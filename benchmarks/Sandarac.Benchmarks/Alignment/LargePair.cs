using Sandarac.Benchmarks.Measuring;
using Sandarac.Imaging.Geometry;
using Sandarac.Specimen;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>The specimen in visible light and in infrared, two lenses and two poses, and where points of one truly lie in the other.</summary>
/// <param name="Visible">The fixed photograph.</param>
/// <param name="Infrared">The moving one.</param>
/// <param name="OnVisible">Points of the face, pixels.</param>
/// <param name="OnInfrared">The same points.</param>
internal sealed record LargePair(string Visible, string Infrared, IReadOnlyList<Point2> OnVisible, IReadOnlyList<Point2> OnInfrared)
{
    private const string VisibleName = "VIS_01.tif", InfraredName = "IR_01.tif";

    /// <summary>Draws in a process of its own, whose memory is free again when the alignment is timed.</summary>
    public static LargePair Draw(double pixelsPerInch, string folder)
    {
        Child.Ours("photographs", $"{pixelsPerInch}", folder, VisibleName, InfraredName);
        var points = SpecimenTruth.Read(folder).Points(InfraredName, VisibleName);
        return new LargePair(SpecimenTruth.Photograph(folder, VisibleName), SpecimenTruth.Photograph(folder, InfraredName),
            [.. points.Select(p => p.Fixed)], [.. points.Select(p => p.Moving)]);
    }

    /// <summary>The drawing itself: resolution, folder, names of the photographs.</summary>
    public static int Draw(string[] arguments)
    {
        SpecimenDrawing.Draw(new SpecimenSettings(Invariant.Number(arguments[0]), OnlyPhotographs: arguments[2..]), arguments[1]);
        return arguments.Length - 2;
    }
}
