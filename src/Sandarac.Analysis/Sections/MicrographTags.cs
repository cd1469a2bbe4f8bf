using Sandarac.Imaging;

namespace Sandarac.Analysis.Sections;

/// <summary>A micrograph's resolution tags, as far as they can be a microscope's.</summary>
public static class MicrographTags
{
    /// <summary>Coarser pixels than at life size on any usual sensor: such tags are a screen's or a printer's, 72 or 300 to the inch. The bound is ours.</summary>
    private const double MostUmPerPixel = 20;

    /// <summary>The scale that the tags give; null when there are none, or when they cannot be a microscope's.</summary>
    public static PixelScale? Of(PixelScale? tags) => tags is { } scale && 1000 * scale.MmPerPixel <= MostUmPerPixel ? scale : null;
}
