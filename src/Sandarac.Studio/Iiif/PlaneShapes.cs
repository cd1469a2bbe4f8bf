using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using NetTopologySuite.Geometries;

namespace Sandarac.Studio.Iiif;

/// <summary>Zones' geometries as selectors of the W3C Web Annotation Data Model (https://www.w3.org/TR/annotation-model/#selectors) and as paths, in pixels of the canvas.</summary>
internal static class PlaneShapes
{
    /// <summary>Radius of the circle that stands for each of several points, pixels.</summary>
    private const int Dot = 6;

    /// <summary>The selector of a geometry: a point as point, an upright rectangle as fragment, everything else as drawing.</summary>
    /// <param name="geometry">mm on the plane.</param>
    /// <param name="canvas">The canvas.</param>
    /// <param name="knowsPoints">Whether the reader knows IIIF's point selector (https://iiif.io/api/annex/openannotation/#point-selector); the W3C's model has none, and gets the pixel there.</param>
    public static JsonObject Selector(Geometry geometry, CanvasGrid canvas, bool knowsPoints) => geometry switch
    {
        Point point => knowsPoints ? PointSelector(point, canvas) : Fragment(point.EnvelopeInternal, canvas),
        Polygon { IsRectangle: true } => Fragment(geometry.EnvelopeInternal, canvas),
        _ => new JsonObject { ["type"] = "SvgSelector", ["value"] = $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {canvas.Width} {canvas.Height}\">{Drawing(geometry, canvas)}</svg>" },
    };

    /// <summary>A rectangle of the canvas, held within it, in whole pixels: Media Fragments URI 1.0, 4.2.2 (https://www.w3.org/TR/media-frags/).</summary>
    public static JsonObject Fragment(Envelope mm, CanvasGrid canvas)
    {
        var (upper, lower) = (canvas.ToPixel(mm.MinX, mm.MinY), canvas.ToPixel(mm.MaxX, mm.MaxY));
        var (left, top) = (Math.Clamp((int)Math.Round(upper.X), 0, canvas.Width - 1), Math.Clamp((int)Math.Round(upper.Y), 0, canvas.Height - 1));
        var (width, height) = (Math.Clamp((int)Math.Round(lower.X) - left, 1, canvas.Width - left), Math.Clamp((int)Math.Round(lower.Y) - top, 1, canvas.Height - top));
        return new JsonObject { ["type"] = "FragmentSelector", ["conformsTo"] = "http://www.w3.org/TR/media-frags/", ["value"] = string.Create(CultureInfo.InvariantCulture, $"xywh={left},{top},{width},{height}") };
    }

    /// <summary>The geometry as the data of an SVG path: closed rings and open lines; points as small circles.</summary>
    public static string Path(Geometry geometry, CanvasGrid canvas)
    {
        var path = new StringBuilder();
        for (var i = 0; i < geometry.NumGeometries; i++) Add(path, geometry.GetGeometryN(i), canvas);
        return path.ToString();
    }

    private static string Drawing(Geometry geometry, CanvasGrid canvas) =>
        $"<path d=\"{Path(geometry, canvas)}\" fill=\"none\" fill-rule=\"evenodd\" stroke=\"#000000\" stroke-width=\"2\"/>";

    /// <summary>IIIF's schema takes whole numbers from 1 on.</summary>
    private static JsonObject PointSelector(Point point, CanvasGrid canvas)
    {
        var place = canvas.ToPixel(point.X, point.Y);
        return new JsonObject { ["type"] = "PointSelector", ["x"] = Math.Clamp((int)Math.Round(place.X), 1, canvas.Width), ["y"] = Math.Clamp((int)Math.Round(place.Y), 1, canvas.Height) };
    }

    private static void Add(StringBuilder path, Geometry part, CanvasGrid canvas)
    {
        switch (part)
        {
            case Polygon polygon:
                Line(path, polygon.ExteriorRing, canvas, closed: true);
                foreach (var hole in polygon.InteriorRings) Line(path, hole, canvas, closed: true);
                break;
            case Point point:
                var p = canvas.ToPixel(point.X, point.Y);
                path.Append(CultureInfo.InvariantCulture, $"M{p.X - Dot:0.##} {p.Y:0.##}a{Dot} {Dot} 0 1 0 {2 * Dot} 0a{Dot} {Dot} 0 1 0 {-2 * Dot} 0Z");
                break;
            default:
                Line(path, (LineString)part, canvas, closed: false);
                break;
        }
    }

    private static void Line(StringBuilder path, LineString line, CanvasGrid canvas, bool closed)
    {
        var points = closed ? line.Coordinates.AsSpan(0, line.NumPoints - 1) : line.Coordinates;
        for (var i = 0; i < points.Length; i++)
        {
            var p = canvas.ToPixel(points[i].X, points[i].Y);
            path.Append(CultureInfo.InvariantCulture, $"{(i == 0 ? 'M' : 'L')}{p.X:0.##} {p.Y:0.##}");
        }
        if (closed) path.Append('Z');
    }
}
