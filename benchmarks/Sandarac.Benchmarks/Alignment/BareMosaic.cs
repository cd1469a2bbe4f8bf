using Sandarac.Analysis.Alignment.Mosaics;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>Where the <c>mosaic</c> reading put parts.</summary>
internal static class BareMosaic
{
    /// <summary>Runs it on files.</summary>
    /// <param name="reference">The guide; null for none.</param>
    /// <param name="parts">The parts.</param>
    /// <param name="outFolder">Made; the result is left there.</param>
    /// <returns>A map for each part, null for one that was left out.</returns>
    public static IReadOnlyList<HomographyMap?> Join(string? reference, IReadOnlyList<string> parts, string outFolder)
    {
        List<string> images = [.. parts.Select(p => "parts=" + p)];
        if (reference is not null) images.Add("reference=" + reference);
        var result = BareRun.Execute(new BareRequest(new MosaicReading(), images, new Dictionary<string, string>(), null, outFolder));
        return result.NoAnswer is null ? Read(Path.Combine(outFolder, "placement.tif"), parts.Count) : new HomographyMap?[parts.Count];
    }

    /// <summary>The table of places that the reading wrote.</summary>
    public static IReadOnlyList<HomographyMap?> Read(string placement, int parts)
    {
        using var file = ImageFile.Open(placement);
        var table = file.ReadWindow(0, 0, 9, parts)[0];
        return [.. Enumerable.Range(0, parts).Select(i => float.IsFinite(table[0, i]) ? new HomographyMap([.. table.Row(i).ToArray().Select(v => (double)v)]) : null)];
    }
}
