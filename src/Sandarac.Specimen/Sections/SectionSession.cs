using System.Runtime.Intrinsics;
using Sandarac.Imaging.Geometry;
using Sandarac.Specimen.Cameras;
using Sandarac.Specimen.Layers;
using Sandarac.Specimen.Output;

namespace Sandarac.Specimen.Sections;

/// <summary>Photographs the two paint sections under the microscope and writes what is true about them.</summary>
internal sealed class SectionSession(SpecimenSettings settings, Painted painted, string photographs, string truth, ParallelOptions options)
{
    private const double PixelsPerInch = 25400 / Micrograph.UmPerPixel;
    private readonly List<Exposure> _taken = [];

    public IReadOnlyList<Exposure> Taken => _taken;

    public void TakeAll(Action<double, string> report)
    {
        foreach (var (n, site) in SectionSite.All.Index())
        {
            options.CancellationToken.ThrowIfCancellationRequested();
            report((double)n / SectionSite.All.Count, $"looking at section {site.Name}");
            var stack = new Stack(site, painted.Layers, painted.Sites[site], settings.Seed);
            var particles = Strewing.Of(stack, settings.Seed + n);
            SectionTruth.Write(Path.Combine(truth, $"section_{site.Name}.json"), site, stack, particles);
            var names = new[] { $"XSEC_{site.Name}_VIS.tif", $"XSEC_{site.Name}_UV.tif" };
            var view = names.Any(settings.Wants) ? new Micrograph(stack, particles, settings.Seed, options) : null;
            Take(names[0], site, n, view?.Visible, view, "visible light, dark field", 1.15f);
            Take(names[1], site, n, view?.Glow, view, "ultraviolet, 365 nm", 1.05f);
        }
    }

    private void Take(string name, SectionSite site, int n, Vector128<float>[]? image, Micrograph? view, string how, float gain)
    {
        var exposure = new Exposure
        {
            FileName = name, Light = "XSEC", Subject = "Sample", PixelsPerInch = PixelsPerInch, Gain = gain, BlurPixels = 1.1f,
                Vignette = 0.03f, FullWell = 20_000,
            Pose = new Pose(view?.Width ?? 1, view?.Height ?? 1, new HomographyMap([0.001 * Micrograph.UmPerPixel, 0, 0, 0, 0.001
                * Micrograph.UmPerPixel, 0, 0, 0, 1])),
            Exif = new ExifFacts("Brackwater", "Microscope M4", $"Section {site.Name}, {how}, {Micrograph.UmPerPixel} um per pixel",
                new DateTime(2024, 3, 14, 10 + n, name.Contains("UV", StringComparison.Ordinal) ? 25 : 20, 0), 0.5, 1, 100),
        };
        _taken.Add(exposure);
        if (image is null || view is null || !settings.Wants(name)) return;
        Shutter.Take(exposure, (x, y) => image[Math.Clamp((int)(y * 1000 / Micrograph.UmPerPixel), 0, view.Height - 1) * view.Width
            + Math.Clamp((int)(x * 1000 / Micrograph.UmPerPixel), 0, view.Width - 1)], photographs, settings.Seed, options);
    }
}
