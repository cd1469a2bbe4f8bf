using MathNet.Numerics.Statistics;
using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio;
using Sandarac.Studio.Jobs;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Api;

/// <summary>Alignment by point pairs, with help; alignment by itself; and what the one in force leaves.</summary>
internal static class PairsApi
{
    public static void MapPairs(this RouteGroupBuilder api)
    {
        var photograph = api.MapGroup("/photographs/{id:guid}");
        photograph.MapGet("/pairs", InForce).WithSummary("The pairs of the alignment in force; none when it was made in another way");
        photograph.MapPost("/pairs", Align).WithSummary("Aligns by pairs").Produces<RunAsked>(StatusCodes.Status202Accepted);
        photograph.MapPost("/pairs/snap", Snap).WithSummary("Where a pair's pixel agrees best with the reference about its place; stores nothing");
        photograph.MapPost("/pairs/fit", Fit).WithSummary("What a map through pairs leaves of each of them; stores nothing");
        photograph.MapPost("/pairs/predict", Predict).WithSummary("Where a place lies in the photograph, or a pixel on the plane, by the pairs so far or by the alignment in force");
        photograph.MapPost("/match", Match).WithSummary("Aligns to a reference without pairs").Produces<RunAsked>(StatusCodes.Status202Accepted);
        photograph.MapGet("/residual", Residual).WithSummary("What the alignment in force leaves, place by place; none when it was not measured");
    }

    private static IReadOnlyList<PairShape> InForce(Guid id, OpenStudio studio) => [.. new PairDesk(studio).InForce(id).Select(PairShape.Of)];

    private static SnapShape Snap(Guid id, SnapAsk ask, OpenStudio studio)
    {
        var found = new PairDesk(studio).Snap(id, ask.Reference, Points.Read(ask.Pairs), Points.Read(ask.Pair));
        return found.Score is { } score ? new SnapShape(Points.Write(found.Pair.Pixel), score, null)
            : new SnapShape(null, null, "Nothing near it stands out in both photographs.");
    }

    private static FitShape Fit(Guid id, FitAsk ask, OpenStudio studio)
    {
        var pairs = Points.Read(ask.Pairs);
        var fit = new PairDesk(studio).Fit(id, pairs, Points.ModelOf(ask.Model));
        var used = fit.Pairs.Where((_, i) => pairs[i].Used).ToList();
        return new FitShape(ModelNames.Of(fit.Model), fit.MmPerPixel, [.. fit.Pairs.Select(Shape)], Spread([.. used.Select(LengthMm)])!,
            Spread([.. used.Select(r => r.LeftOutMm).OfType<double>()]));
    }

    private static PredictShape Predict(Guid id, PredictAsk ask, OpenStudio studio)
    {
        var (desk, pairs) = (new PairDesk(studio), Points.Read(ask.Pairs));
        var found = ask.Place is not null ? desk.PredictPixel(id, pairs, Points.Read("place", ask.Place)) : desk.PredictPlace(id, pairs, Points.Read("pixel", ask.Pixel));
        return new PredictShape(Points.Write(found.Place), Points.Write(found.Pixel), double.IsFinite(found.MmPerPixel) ? found.MmPerPixel : null);
    }

    private static IResult Align(Guid id, AlignByPairsAsk ask, OpenStudio studio, JobHost jobs)
    {
        var (pairs, model) = (Points.Read(ask.Pairs), Points.ModelOf(ask.Model));
        new PairDesk(studio).Fit(id, pairs, model);
        return Queued(new Aligning(studio).QueueByPairs(id, ask.Reference, pairs, model, Environment.UserName), jobs);
    }

    private static IResult Match(Guid id, MatchAsk ask, OpenStudio studio, JobHost jobs) =>
        Queued(new Aligning(studio).QueueMatch(id, ask.Reference, Points.ModelOf(ask.Model), Environment.UserName), jobs);

    private static IResult Queued(Run run, JobHost jobs)
    {
        jobs.Enqueue(run.Id);
        return Results.Accepted($"/api/runs/{run.Id}", new RunAsked(run.Id));
    }

    private static List<ResidualShape> Residual(Guid id, OpenStudio studio)
    {
        if (studio.FindPhotograph(id).Alignments.InForce()?.RunId is not { } runId) return [];
        return studio.FindRun(runId).Rasters.FirstOrDefault(r => r.Name == ResidualMap.Output.Name) is { Extent: { } extent } raster
            ? studio.Pyramids.Read(raster.Pyramid.Sha256, file => Cells(file.ReadWindow(0, 0, 0, file.Width, file.Height), extent)) : [];
    }

    /// <summary>Each cell that holds a patch, at its middle.</summary>
    private static List<ResidualShape> Cells(Plane[] bands, Box extent)
    {
        var (right, down) = (bands[0], bands[1]);
        List<ResidualShape> cells = [];
        for (var y = 0; y < right.Height; y++)
            for (var x = 0; x < right.Width; x++)
                if (float.IsFinite(right[x, y]) && float.IsFinite(down[x, y]))
                    cells.Add(new ResidualShape([extent.Left + (x + 0.5) * extent.Width / right.Width, extent.Top + (y + 0.5) * extent.Height / right.Height], [right[x, y], down[x, y]]));
        return cells;
    }

    private static PairResidualShape Shape(PairResidual r) => new([r.Mm.X, r.Mm.Y], LengthMm(r), r.Px, r.LeftOutMm, r.OthersRmsMm);

    private static double LengthMm(PairResidual r) => r.Mm.DistanceTo(default);

    private static SpreadShape? Spread(IReadOnlyList<double> lengths) =>
        lengths.Count == 0 ? null : new SpreadShape(lengths.QuantileCustom(0.5, QuantileDefinition.R7), lengths.QuantileCustom(0.95, QuantileDefinition.R7), lengths.Max());
}
