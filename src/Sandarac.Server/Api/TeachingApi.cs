using System.Text.Json;
using Sandarac.Analysis.Teaching;
using Sandarac.Imaging;
using Sandarac.Imaging.Display;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio;
using Sandarac.Studio.Record;

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
/// <param name="IsSeparable">Whether it can be told from every other class; null when there are not enough examples to say.</param>
/// <param name="Recognised">Part of its held-out examples that is recognised.</param>
/// <param name="Lower">Lower end of the 95 % interval.</param>
/// <param name="Upper">Upper end.</param>
/// <param name="Probability">PNG, grey: black is 0, white is 1; transparent where a layer has no data.</param>
internal sealed record TaughtClassShape(string Name, int Examples, string Verdict, bool? IsSeparable, double? Recognised, double? Lower, double? Upper, byte[] Probability)
{
    public static TaughtClassShape Of(TaughtClass c) => new(c.Name, c.Examples, c.Verdict, c.IsSeparable, c.Recognised, c.Lower, c.Upper, Picture(c.Probability));

    private static byte[] Picture(Plane probability)
    {
        var pixels = new byte[2 * probability.Data.Length];
        for (var i = 0; i < probability.Data.Length; i++)
            if (float.IsFinite(probability.Data[i])) (pixels[2 * i], pixels[2 * i + 1]) = ((byte)Math.Clamp(probability.Data[i] * 255 + 0.5f, 0, 255), 255);
        return DisplayEncoder.Encode(pixels, probability.Width, probability.Height, 2, null, DisplayFormat.Png);
    }
}

/// <summary>What marks teach in a view.</summary>
/// <param name="View">Left, top, right, bottom of the pictures, mm.</param>
/// <param name="MmPerPixel">Size of their pixels.</param>
/// <param name="NoAnswer">Why nothing was learnt; null when something was.</param>
/// <param name="Classes">The classes.</param>
/// <param name="Quality">How far it holds on marks that were held out; null when a class has too few examples to say.</param>
/// <param name="Importance">What carries it, most first.</param>
internal sealed record TaughtShape(IReadOnlyList<double> View, double MmPerPixel, string? NoAnswer, IReadOnlyList<TaughtClassShape> Classes, TaughtQuality? Quality, IReadOnlyList<CarriedBy> Importance);

/// <summary>The sheet of marks that a person is working on.</summary>
/// <param name="Classes">Names of the classes in her order.</param>
/// <param name="StrokeWidth">How wide a stroke counts, mm.</param>
/// <param name="Layers">Photographs that are looked at; empty while she has not chosen.</param>
/// <param name="Marks">GeoJSON feature collection, mm on the plane, each feature with one of the classes as the property "class".</param>
/// <param name="Revision">Name it in If-Match to change the sheet; 0 before anything was stored.</param>
internal sealed record MarkSheetShape(IReadOnlyList<string> Classes, double StrokeWidth, IReadOnlyList<Guid> Layers, JsonElement Marks, int Revision);

/// <summary>A sheet of marks as it shall be; what is left out is empty, or the reading's default.</summary>
internal sealed record MarkSheetDraft(IReadOnlyList<string>? Classes, double? StrokeWidth, IReadOnlyList<Guid>? Layers, JsonElement? Marks);

/// <summary>Teaching while marks are made: learns anew at each call, at the screen's size. The marks are stored by themselves; what is learnt is kept by a run of the reading, with the marks in it.</summary>
internal static class TeachingApi
{
    public static void MapTeaching(this RouteGroupBuilder api)
    {
        api.MapPost("/paintings/{id:guid}/teach", Teach).WithSummary("What marks teach, in a view and at a screen's resolution; stores nothing");
        api.MapGet("/paintings/{id:guid}/marks", (Guid id, OpenStudio studio, HttpResponse response) => Answer(new MarkSheets(studio).Of(id), response)).WithSummary("The marks that a painting is being taught with").Produces<MarkSheetShape>();
        api.MapPut("/paintings/{id:guid}/marks", Store).WithSummary("Stores the marks; If-Match names the revision they were made on").Produces<MarkSheetShape>();
    }

    private static IResult Store(Guid id, MarkSheetDraft draft, OpenStudio studio, HttpRequest request, HttpResponse response)
    {
        if (draft.Classes?.Contains(null!) ?? false) throw new InputProblem("mark-classes", "classes", "A class has no name.", "Give each class a name.");
        var content = new MarkSheetContent(draft.Classes ?? [], draft.StrokeWidth ?? TaughtZonesReading.StrokeWidth.Default, draft.Layers ?? [], draft.Marks?.GetRawText() ?? MarkSheets.NoMarks);
        return Answer(new MarkSheets(studio).Store(id, IfMatch.Revision(request), content), response);
    }

    private static IResult Answer(MarkSheet sheet, HttpResponse response)
    {
        IfMatch.Tell(response, sheet.Revision);
        return Results.Json(new MarkSheetShape(sheet.Content.Classes, sheet.Content.StrokeMm, sheet.Content.Layers, JsonElement.Parse(sheet.Content.Marks), sheet.Revision));
    }

    private static TaughtShape Teach(Guid id, TeachAsk ask, OpenStudio studio, CancellationToken cancellation)
    {
        studio.FindPainting(id);
        var view = ask.View is [var left, var top, var right, var bottom] ? new Box(left, top, right - left, bottom - top)
            : throw new InputProblem("view", "view", "The request has no view.", "Give left, top, right and bottom in mm on the plane.");
        var mm = ask.MmPerPixel ?? throw new InputProblem("view", "mmPerPixel", "The request does not say how large a pixel is.", "Give mmPerPixel.");
        var part = new TeachingDesk(studio).View(new TeachingRequest(id, ask.Marks?.GetRawText() ?? "", ask.Layers ?? [], view, mm, ask.StrokeWidth ?? TaughtZonesReading.StrokeWidth.Default), cancellation);
        return new TaughtShape([part.View.Left, part.View.Top, part.View.Right, part.View.Bottom], part.MmPerPixel,
            part.Taught is null ? "Not enough examples: mark pixels of at least two classes that have data in every layer." : null,
            [.. (part.Taught?.Classes ?? []).Select(TaughtClassShape.Of)], part.Taught?.Quality, part.Taught?.Importance ?? []);
    }
}
