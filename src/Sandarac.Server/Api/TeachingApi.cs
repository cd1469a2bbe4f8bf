using System.Text.Json;
using Sandarac.Analysis.Teaching;
using Sandarac.Imaging;
using Sandarac.Imaging.Display;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio;

namespace Sandarac.Server.Api;

/// <summary>What to show of what marks teach.</summary>
/// <param name="Marks">GeoJSON feature collection, mm on the plane, each feature with the property "class".</param>
/// <param name="Layers">Photographs that lie on the plane.</param>
/// <param name="View">Left, top, right, bottom of what is looked at, mm.</param>
/// <param name="MmPerPixel">Size of the screen's pixels on the plane.</param>
/// <param name="StrokeWidth">Width of a stroke, mm; 1 when left out.</param>
internal sealed record TeachAsk(JsonElement? Marks, IReadOnlyList<Guid>? Layers, IReadOnlyList<double>? View, double? MmPerPixel, double? StrokeWidth);

/// <summary>A class as it was learnt.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Examples">Its separate examples.</param>
/// <param name="Verdict">How far it can be told from the others, in words.</param>
/// <param name="Recognised">Part of its held-out examples that is recognised.</param>
/// <param name="Lower">Lower end of the 95 % interval.</param>
/// <param name="Upper">Upper end.</param>
/// <param name="Probability">PNG, grey: black is 0, white is 1.</param>
internal sealed record TaughtClassShape(string Name, int Examples, string Verdict, double? Recognised, double? Lower, double? Upper, byte[] Probability)
{
    public static TaughtClassShape Of(TaughtClass c) => new(c.Name, c.Examples, c.Verdict, c.Recognised, c.Lower, c.Upper, DisplayEncoder.Preview([c.Probability], new ContrastWindow(0, 1)));
}

/// <summary>What marks teach in a view.</summary>
/// <param name="View">Left, top, right, bottom of the pictures, mm.</param>
/// <param name="MmPerPixel">Size of their pixels.</param>
/// <param name="NoAnswer">Why nothing was learnt; null when something was.</param>
/// <param name="Classes">The classes.</param>
/// <param name="Importance">What carries it, most first.</param>
internal sealed record TaughtShape(IReadOnlyList<double> View, double MmPerPixel, string? NoAnswer, IReadOnlyList<TaughtClassShape> Classes, IReadOnlyList<CarriedBy> Importance);

/// <summary>Teaching while marks are made: learns anew at each call, at the screen's size, and stores nothing. What is kept is a run of the reading with the marks in it.</summary>
internal static class TeachingApi
{
    public static void MapTeaching(this RouteGroupBuilder api) =>
        api.MapPost("/paintings/{id:guid}/teach", Teach).WithSummary("What marks teach, in a view and at a screen's resolution; stores nothing");

    private static TaughtShape Teach(Guid id, TeachAsk ask, OpenStudio studio, CancellationToken cancellation)
    {
        studio.FindPainting(id);
        var view = ask.View is [var left, var top, var right, var bottom] ? new Box(left, top, right - left, bottom - top)
            : throw new InputProblem("view", "view", "The request has no view.", "Give left, top, right and bottom in mm on the plane.");
        var mm = ask.MmPerPixel ?? throw new InputProblem("view", "mmPerPixel", "The request does not say how large a pixel is.", "Give mmPerPixel.");
        var part = new TeachingDesk(studio).View(new TeachingRequest(id, ask.Marks?.GetRawText() ?? "", ask.Layers ?? [], view, mm, ask.StrokeWidth ?? 1), cancellation);
        return new TaughtShape([part.View.Left, part.View.Top, part.View.Right, part.View.Bottom], part.MmPerPixel,
            part.Taught is null ? "Not enough examples: mark pixels of at least two classes that have data in every layer." : null,
            [.. (part.Taught?.Classes ?? []).Select(TaughtClassShape.Of)], part.Taught?.Importance ?? []);
    }
}
