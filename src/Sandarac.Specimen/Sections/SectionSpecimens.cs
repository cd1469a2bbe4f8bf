using System.Globalization;
using System.Runtime.Intrinsics;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Specimen.Cameras;
using Sandarac.Specimen.Output;

namespace Sandarac.Specimen.Sections;

/// <summary>Draws invented paint sections under the microscope, in visible light, as they luminesce and by back-scattered electrons, with everything that is true of them beside.</summary>
public static class SectionSpecimens
{
    /// <summary>Resin left around the section in the frame, um.</summary>
    private const double MarginUm = 30;

    /// <summary>Name of a section's micrograph.</summary>
    /// <param name="seed">The section's seed.</param>
    /// <param name="light">"VIS", "UV" or "BSE".</param>
    public static string FileName(int seed, string light) => string.Create(CultureInfo.InvariantCulture, $"XSEC_{seed:0000}_{light}.tif");

    /// <summary>Draws one section: <c>photographs/XSEC_nnnn_VIS.tif</c> and <c>_UV.tif</c> on one grid, <c>truth/section_nnnn.json</c>.</summary>
    /// <param name="electrons">Also <c>_BSE.tif</c>, in a frame of its own.</param>
    /// <param name="seed">Chooses the section, 0 to 9999; the same seed gives the same pixels on every machine.</param>
    /// <param name="folder">Made when missing; files of the same names are replaced.</param>
    /// <param name="threads">Threads at most; 0 for as many as there are processors. Never changes the result.</param>
    /// <param name="cancellation">Stops the drawing; no half file is left.</param>
    /// <exception cref="InputProblem">"section-seed": the seed is out of range.</exception>
    public static void Draw(int seed, string folder, int threads = 0, bool electrons = false, CancellationToken cancellation = default)
    {
        if (seed is < 0 or > 9999) throw new InputProblem("section-seed", "seed", $"{seed} is no seed of a section.", "Give a seed from 0 to 9999.");
        var photographs = Directory.CreateDirectory(Path.Combine(folder, "photographs")).FullName;
        var truth = Directory.CreateDirectory(Path.Combine(folder, "truth")).FullName;
        var options = new ParallelOptions { CancellationToken = cancellation, MaxDegreeOfParallelism = threads > 0 ? threads : Environment.ProcessorCount };
        var section = new InventedSection(seed);
        var particles = Strewing.Of(section.Stack, seed);
        var turn = Math.Abs(section.TurnDegrees) * Math.PI / 180;
        var view = new Micrograph(section.Stack, particles, seed, options, (float)(section.LengthUm / 2 * Math.Sin(turn) + 40), section.Bubbles);
        var pose = Frame(section, view, turn);
        var electronPose = electrons ? ElectronFrame(section, pose) : null;
        SectionSpecimenTruth.Write(Path.Combine(truth, string.Create(CultureInfo.InvariantCulture, $"section_{seed:0000}.json")), seed, section, particles, view.TopUm, pose, electronPose);
        Take(section, seed, "VIS", view.Visible, view, pose, 1.15f, photographs, options);
        Take(section, seed, "UV", view.Glow, view, pose, 1.05f, photographs, options);
        if (electronPose is not null) Scan(section, seed, view, electronPose, photographs, options);
    }

    /// <summary>The electron microscope's frame covers as much as the light microscope's.</summary>
    private static Pose ElectronFrame(InventedSection section, Pose visible)
    {
        var (um, degrees, right, down) = section.ElectronFrame();
        var (w, h) = ((int)(visible.Width * section.UmPerPixel / um), (int)(visible.Height * section.UmPerPixel / um));
        var middle = visible.Map.ToPlane(new Point2(visible.Width / 2.0, visible.Height / 2.0));
        var (c, s) = (Math.Cos(degrees * Math.PI / 180) * um / 1000, Math.Sin(degrees * Math.PI / 180) * um / 1000);
        return new Pose(w, h, new HomographyMap([c, s, middle.X + right / 1000 - c * w / 2 - s * h / 2, -s, c, middle.Y + down / 1000 + s * w / 2 - c * h / 2, 0, 0, 1]));
    }

    /// <summary>A frame turned against the section, within what was drawn.</summary>
    private static Pose Frame(InventedSection section, Micrograph view, double turn)
    {
        var um = section.UmPerPixel;
        var (high, low) = (section.Stack.Layers[^1].Top.Max(), section.Stack.Base.Min());
        var widthUm = (section.LengthUm - (high - low + 2 * MarginUm) * Math.Sin(turn)) / (Math.Cos(turn) + Math.Tan(turn) * Math.Sin(turn));
        var heightUm = (high - low) * Math.Cos(turn) + widthUm * Math.Sin(turn) + 2 * MarginUm;
        var (c, s) = (Math.Cos(section.TurnDegrees * Math.PI / 180) * um / 1000, Math.Sin(section.TurnDegrees * Math.PI / 180) * um / 1000);
        var (w, h) = ((int)(widthUm / um), (int)(heightUm / um));
        var (midX, midY) = (section.LengthUm / 2000, (view.TopUm - (high + low) / 2) / 1000);
        return new Pose(w, h, new HomographyMap([c, s, midX - c * w / 2 - s * h / 2, -s, c, midY + s * w / 2 - c * h / 2, 0, 0, 1]));
    }

    private static void Take(InventedSection section, int seed, string light, Vector128<float>[] image, Micrograph view, Pose pose, float gain, string folder, ParallelOptions options)
    {
        var exposure = new Exposure
        {
            FileName = FileName(seed, light), Light = "XSEC", Subject = "Sample", Pose = pose, PixelsPerInch = 25400 / section.UmPerPixel,
            Gain = gain, BlurPixels = section.BlurPixels, Vignette = 0.03f, FullWell = section.FullWell, Fineness = 2,
            Exif = new ExifFacts("Brackwater", "Microscope M4", string.Create(CultureInfo.InvariantCulture, $"Section {seed}, {light}, {section.UmPerPixel} um per pixel"),
                new DateTime(2024, 3, 15, 9, 0, 0), 0.5, 1, 100),
        };
        Shutter.Take(exposure, (x, y) => image[At(view, x, y)], folder, seed, options);
    }

    /// <summary>Grey, sharper than light and noisier; lead nearly fills the scale.</summary>
    private static void Scan(InventedSection section, int seed, Micrograph view, Pose pose, string folder, ParallelOptions options)
    {
        var um = section.ElectronFrame().UmPerPixel;
        var exposure = new Exposure
        {
            FileName = FileName(seed, "BSE"), Light = "XSEC", Subject = "Sample", Pose = pose, PixelsPerInch = 25400 / um, Bands = 1,
            Gain = 1.7f, BlurPixels = 0.7f, Vignette = 0, FullWell = 500, Fineness = 2,
            Exif = new ExifFacts("Brackwater", "Electron microscope E2", string.Create(CultureInfo.InvariantCulture, $"Section {seed}, back-scattered electrons, {um} um per pixel"),
                new DateTime(2024, 3, 18, 9, 0, 0), 0.5, 1, 100),
        };
        Shutter.Take(exposure, (x, y) => Vector128.CreateScalar(view.Visible[At(view, x, y)][3]), folder, seed, options);
    }

    private static int At(Micrograph view, float x, float y) => Math.Clamp((int)(y * 1000 / Micrograph.UmPerPixel), 0, view.Height - 1) * view.Width
        + Math.Clamp((int)(x * 1000 / Micrograph.UmPerPixel), 0, view.Width - 1);
}
