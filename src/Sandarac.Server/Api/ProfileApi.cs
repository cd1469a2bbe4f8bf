using System.Globalization;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio;

namespace Sandarac.Server.Api;

/// <summary>Profiles: what a map holds along a line.</summary>
internal static class ProfileApi
{
    public static void MapProfiles(this RouteGroupBuilder api) => api.MapGet("/layers/{layerId}/profile", Along)
        .WithSummary("A reading's map along a line (x,y,x,y,... in mm, y down), averaged over a breadth across it: values at even steps, null without data, and the largest less the smallest");

    private static LineProfile Along(string layerId, string line, OpenStudio studio, CancellationToken cancellation, double breadth = 0) =>
        new LineProfiles(studio).Along(layerId, Read(line), breadth, cancellation);

    private static IReadOnlyList<Point2> Read(string line)
    {
        var numbers = line.Split(',').Select(t => double.TryParse(t, NumberStyles.Float, CultureInfo.InvariantCulture, out var v) ? v : double.NaN).ToList();
        return numbers.Count % 2 == 0 ? [.. numbers.Chunk(2).Select(p => new Point2(p[0], p[1]))]
            : throw new InputProblem("profile-line", "line", "The line has a number too many.", "Give x and y of each place.");
    }
}
