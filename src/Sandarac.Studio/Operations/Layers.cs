using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Something the viewer can show.</summary>
/// <param name="Id">"p-PHOTOGRAPH" for a plane image, "o-PHOTOGRAPH" for original pixels, "r-RUN-RASTER" for a reading's raster.</param>
/// <param name="IsReading">Whether it was computed by a reading.</param>
/// <param name="Light">Canonical code of the light; null for a map of numbers or when unknown.</param>
/// <param name="Label">What a person calls it: the file's name without suffix, or the raster's title.</param>
/// <param name="Detail">One line more: where the lamp stood, what the reading says.</param>
/// <param name="OnPlane">Whether the extent is in mm on the plane; otherwise it is in the photograph's pixels.</param>
/// <param name="Verdict">How far the alignment may be trusted.</param>
/// <param name="Residual">How well it fits, in words; null when unknown.</param>
/// <param name="Extent">Where it lies: mm, y down; or pixels.</param>
/// <param name="MmPerPixel">Size of a full-level pixel on the plane; null when not on the plane.</param>
/// <param name="Pyramid">The object and what it holds.</param>
/// <param name="PhotographId">The photograph it is made of.</param>
/// <param name="RunId">The run that made it.</param>
/// <param name="Warnings">What whoever looks at it must know.</param>
public sealed record Layer(string Id, bool IsReading, string? Light, string Label, string Detail, bool OnPlane, Verdict? Verdict, string? Residual,
    Box Extent, double? MmPerPixel, PyramidFacts Pyramid, Guid? PhotographId, Guid? RunId, IReadOnlyList<Warning> Warnings);

/// <summary>Resolves what a painting has to show into pyramids and facts.</summary>
public sealed class Layers(OpenStudio studio)
{
    /// <summary>All layers of a painting: photographs in the order of their lights, then readings.</summary>
    public IReadOnlyList<Layer> Of(Guid paintingId) => throw new NotImplementedException(studio.Folder + paintingId);

    /// <summary>One layer.</summary>
    /// <exception cref="InputProblem">There is none with this id ("unknown-layer").</exception>
    public Layer Find(string layerId) => throw new NotImplementedException(layerId);

    /// <summary>Where a layer's pyramid lies; a tiled TIFF.</summary>
    public string PathOf(Layer layer) => studio.Objects.PathOf(layer.Pyramid.Sha256);
}
