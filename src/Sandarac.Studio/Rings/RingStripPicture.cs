using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging.Display;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Rings;

/// <summary>The photograph along a series' line, turned so that the line runs from left to right.</summary>
/// <param name="Width">Its width, px.</param>
/// <param name="Height">Its height, px.</param>
/// <param name="PixelsPerMm">px along the line for a millimetre.</param>
/// <param name="PyramidSha256">The photograph's pixels.</param>
/// <param name="Line">The line, pixels of the photograph.</param>
/// <param name="Slope">How boundaries lean on the mean, as the run found it: pixels along for a pixel to the line's right.</param>
public sealed record RingStripPicture(int Width, int Height, double PixelsPerMm, string PyramidSha256, IReadOnlyList<Point2> Line, double Slope)
{
    /// <summary>Longest strip and its height, px: longer ones are brought down.</summary>
    private const int Longest = 8000, Tall = 140;

    /// <summary>The strip of a series; null when it was not measured on a photograph that is there.</summary>
    public static RingStripPicture? Of(OpenStudio studio, RingSeries series)
    {
        if (series.Content is not { PhotographId: { } id, RunId: { } runId, Line: [var from, var to] }) return null;
        using var db = studio.CreateDb();
        if (db.Photographs.AsNoTracking().FirstOrDefault(p => p.Id == id)?.Pyramid is not { } pyramid || db.Runs.AsNoTracking().FirstOrDefault(r => r.Id == runId) is not { } run || RingDesk.ScaleOf(run) is not { } mm) return null;
        var lean = run.Figures.FirstOrDefault(f => f.Name == "lean")?.Value ?? 0;
        var shrink = Math.Max(1, from.DistanceTo(to) / Longest);
        return new RingStripPicture(Math.Max(1, (int)(from.DistanceTo(to) / shrink)), Tall, 1 / (mm * shrink), pyramid.Sha256, [from, to], Math.Tan(lean * Math.PI / 180));
    }

    /// <summary>Draws it.</summary>
    public byte[] Draw(OpenStudio studio)
    {
        var (from, length) = (Line[0], Line[0].DistanceTo(Line[1]));
        var (x, y, k) = ((Line[1].X - from.X) / length, (Line[1].Y - from.Y) / length, Width / length);
        var map = new HomographyMap([k * x, k * y, -k * (x * from.X + y * from.Y), -k * y, k * x, k * (y * from.X - x * from.Y) + Height / 2.0, 0, 0, 1]);
        return PlaneDetail.Draw(studio, PyramidSha256, map, Width, Height, DisplayFormat.Webp);
    }
}
