using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Studio;
using Sandarac.Studio.Documents;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Api;

/// <summary>A layer as the viewer takes it.</summary>
/// <param name="Id">p-PHOTOGRAPH, o-PHOTOGRAPH or r-RUN-RASTER.</param>
/// <param name="Kind">"photograph" or "reading".</param>
/// <param name="Light">Canonical code of the light; empty when it has none.</param>
/// <param name="Label">What a person calls it.</param>
/// <param name="Detail">One line more.</param>
/// <param name="OnPlane">Whether it lies on the plane; otherwise its extent is in its own pixels.</param>
/// <param name="Verdict">"aligned", "uncertain" or "not aligned"; null when nothing was aligned.</param>
/// <param name="Residual">How well it fits, in words.</param>
/// <param name="ExtentMm">Left, top, right, bottom in mm (y down), or in pixels.</param>
/// <param name="Width">Columns of level 0.</param>
/// <param name="Height">Rows of level 0.</param>
/// <param name="MmPerPixel">Size of a pixel of level 0; 1 in its own pixels.</param>
/// <param name="Levels">Levels; each halves the one before.</param>
/// <param name="TileSize">Columns and rows of a tile.</param>
/// <param name="Bands">Names of the bands.</param>
/// <param name="Format">u8 tiles are pictures; u16 and f32 tiles are numbers, little endian, pixel by pixel.</param>
/// <param name="Unit">Unit of the numbers.</param>
/// <param name="Low">Lower end of the suggested contrast window.</param>
/// <param name="High">Upper end of the suggested contrast window.</param>
/// <param name="FullScale">Largest value the format can hold; 1 for floats.</param>
/// <param name="Version">Name it as v in the addresses of tiles and of the thumbnail.</param>
/// <param name="PhotographId">The photograph it shows.</param>
/// <param name="RunId">The run that made it.</param>
/// <param name="Warnings">What whoever looks at it must know.</param>
/// <param name="Classes">What the numbers 0, 1, 2, ... are called; null when they are measures.</param>
internal sealed record LayerShape(string Id, string Kind, string Light, string Label, string Detail, bool OnPlane, string? Verdict, string? Residual,
    IReadOnlyList<double> ExtentMm, int Width, int Height, double MmPerPixel, int Levels, int TileSize, IReadOnlyList<string> Bands, string Format,
    string Unit, double Low, double High, double FullScale, string Version, Guid? PhotographId, Guid? RunId, IReadOnlyList<Warning> Warnings, IReadOnlyList<string>? Classes)
{
    public const int Tile = 512;

    public static LayerShape Of(Layer layer) => new(layer.Id, layer.IsReading ? "reading" : "photograph", layer.Light ?? "", layer.Label, layer.Detail,
        layer.OnPlane, layer.Verdict is { } verdict ? Words.VerdictOf(verdict) : null, layer.Residual, [layer.Extent.Left, layer.Extent.Top, layer.Extent.Right, layer.Extent.Bottom],
        layer.Pyramid.Width, layer.Pyramid.Height, layer.MmPerPixel ?? 1, layer.Pyramid.Levels, Tile, layer.Pyramid.Bands,
        FormatOf(layer.Pyramid.Format), layer.Pyramid.Unit, layer.Pyramid.Low, layer.Pyramid.High, layer.Pyramid.FullScale, VersionOf(layer.Pyramid),
        layer.PhotographId, layer.RunId, layer.Warnings, layer.Classes);

    /// <summary>Changes when the layer's pixels do: the first 64 bits of the pyramid's hash.</summary>
    public static string VersionOf(PyramidFacts pyramid) => pyramid.Sha256[..16];

    /// <summary>How tiles of such samples are sent; formats of more than 16 bits go as floats.</summary>
    public static string FormatOf(SampleFormat format) => format switch
    {
        SampleFormat.UInt8 => "u8",
        SampleFormat.UInt16 => "u16",
        _ => "f32",
    };
}
