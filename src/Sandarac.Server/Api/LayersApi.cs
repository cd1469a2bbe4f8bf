using Microsoft.Net.Http.Headers;
using Sandarac.Imaging.Geometry;
using Sandarac.Server.Tiles;
using Sandarac.Studio;

namespace Sandarac.Server.Api;

/// <summary>Tiles and thumbnails of layers.</summary>
internal static class LayersApi
{
    public static void MapLayers(this RouteGroupBuilder api)
    {
        api.MapGet("/layers/{layerId}", (string layerId, OpenStudio studio) => LayerShape.Of(new Layers(studio).Find(layerId)))
            .WithSummary("One layer; every photograph has one in its own pixels (o-PHOTOGRAPH), aligned or not");
        api.MapGet("/layers/{layerId}/tiles/{level:int}/{col:int}/{row:int}", TileAsync)
            .WithSummary("One tile of 512 x 512: a picture for u8 layers, numbers (little endian, pixel by pixel, no header) for u16 and f32")
            .Produces<byte[]>(StatusCodes.Status200OK, TileStore.Numbers, TileStore.Picture);
        api.MapGet("/layers/{layerId}/thumbnail", ThumbnailAsync).WithSummary("The whole layer, longest side 256")
            .Produces<byte[]>(StatusCodes.Status200OK, TileStore.Thumbnail);
        api.MapGet("/layers/{layerId}/detail", DetailAsync).WithSummary("A part of a layer on the plane, in mm, its longer side so many pixels: the same place of several layers at one scale")
            .Produces<byte[]>(StatusCodes.Status200OK, TileStore.Thumbnail);
    }

    private static async Task TileAsync(string layerId, int level, int col, int row, string? v, HttpContext context, LayerIndex layers, TileStore tiles)
    {
        var layer = layers.Find(layerId, v);
        var place = new TilePlace(level, col, row);
        if (IsKnown(context, layer, $"{level}-{col}-{row}", v)) return;
        if (TileStore.ShowsPictures(layer))
        {
            await SendAsync(context, await tiles.PictureAsync(layer, place, context.RequestAborted), TileStore.Picture);
            return;
        }
        context.Response.ContentType = TileStore.Numbers;
        await tiles.SendNumbersAsync(layer, place, context.Response, context.RequestAborted);
    }

    private static async Task ThumbnailAsync(string layerId, string? v, HttpContext context, LayerIndex layers, TileStore tiles)
    {
        var layer = layers.Find(layerId, v);
        if (IsKnown(context, layer, "thumbnail", v)) return;
        await SendAsync(context, await tiles.ThumbnailAsync(layer, context.RequestAborted), TileStore.Thumbnail);
    }

    private static async Task DetailAsync(string layerId, double left, double top, double width, double height, int longest, string? v, HttpContext context, LayerIndex layers, TileStore tiles)
    {
        var layer = layers.Find(layerId, v);
        if (IsKnown(context, layer, FormattableString.Invariant($"{left}-{top}-{width}-{height}-{longest}"), v)) return;
        await SendAsync(context, await tiles.DetailAsync(layer, new Box(left, top, width, height), longest, context.RequestAborted), TileStore.Thumbnail);
    }

    /// <summary>Names the answer, and ends with 304 when the browser has it already.</summary>
    private static bool IsKnown(HttpContext context, Layer layer, string part, string? version)
    {
        var tag = new EntityTagHeaderValue($"\"{LayerShape.VersionOf(layer.Pyramid)}-{part}\"");
        // With a version in its address an answer never changes; without one the browser must ask again.
        context.Response.Headers.CacheControl = version is null ? "private, no-cache" : "private, max-age=31536000, immutable";
        context.Response.Headers.ETag = tag.ToString();
        var isKnown = context.Request.GetTypedHeaders().IfNoneMatch.Any(t => t.Compare(tag, useStrongComparison: false));
        if (isKnown) context.Response.StatusCode = StatusCodes.Status304NotModified;
        return isKnown;
    }

    private static async Task SendAsync(HttpContext context, byte[] bytes, string mediaType)
    {
        context.Response.ContentType = mediaType;
        context.Response.ContentLength = bytes.Length;
        await context.Response.Body.WriteAsync(bytes, context.RequestAborted);
    }
}
