using System.Globalization;
using MathNet.Numerics.Statistics;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Relief;
using Sandarac.Analysis.Tests.Luminescence;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;

namespace Sandarac.Analysis.Tests.Relief;

/// <summary>The specimen under eight raking lamps, with shadow, gloss and noise, on the plane by its true maps, against its truth.</summary>
/// <remarks>The truth's height is brought to the photographs' grid by the mean of what each pixel covers; its normals are central differences of that. A flat board scores its mean slope.</remarks>
public class SpecimenReliefTests(SpecimenFixture specimen)
{
    private const double Mm = 0.5;

    [Fact]
    public void Known_normals_and_height()
    {
        using var scene = new SpecimenOnPlane(specimen, Mm);
        string[] sides = ["N_az000", "NE_az045", "E_az090", "SE_az135", "S_az180", "SW_az225", "W_az270", "NW_az315"];
        var images = sides.Select((side, k) => ("raking", scene.Open($"RAK_{side}_el15.tif", Light.Raking) with { Lamp = new LampAngles(45 * k, 15) }))
            .Concat(sides.Select((side, k) => ("raking-board", scene.Own($"RAK_{side}_el15_flat.tif", Light.Raking) with { Lamp = new LampAngles(45 * k, 15) }))).ToArray();
        var (outcome, rasters) = ReliefScene.Read(images);
        var truth = Averaged(specimen.Folder, rasters["height"][0]);
        var (errors, slopes) = (new List<double>(), new List<double>());
        for (var y = 1; y < truth.Height - 1; y++)
            for (var x = 1; x < truth.Width - 1; x++)
            {
                var normal = Lamp.Towards((truth[x - 1, y] - truth[x + 1, y]) / (2000 * Mm), (truth[x, y - 1] - truth[x, y + 1]) / (2000 * Mm), 1);
                var (nx, ny) = ((double)rasters["normals"][0][x, y], (double)rasters["normals"][1][x, y]);
                errors.Add(new Lamp(nx, ny, Math.Sqrt(1 - nx * nx - ny * ny)).AngleTo(normal));
                slopes.Add(new Lamp(0, 0, 1).AngleTo(normal));
            }
        Form.Remove(truth, 2);
        var known = rasters["height"][0].Data.Zip(truth.Data, (h, t) => (Height: (double)h, Truth: (double)t)).Where(p => double.IsFinite(p.Height)).ToList();
        var r = Correlation.Pearson(known.Select(p => p.Height), known.Select(p => p.Truth));
        var rms = Math.Sqrt(known.Average(p => (p.Height - p.Truth) * (p.Height - p.Truth)));
        Say($"normals: mean error {errors.Average():0.00} degrees (a flat board: {slopes.Average():0.00}); height without form: r {r:0.000}, RMSE {rms:0.0} um of {Math.Sqrt(known.Average(p => p.Truth * p.Truth)):0.0} um");
        foreach (var figure in outcome.Figures.Where(f => f.Name is "shift" or "unexplained" or "confidence" or "sq" or "slope" or "form-range" or "places" or "least-height")) Say($"{figure.Name} {figure.Subject}: {figure.Value:0.###}");
        Say($"warnings: {string.Join(" | ", outcome.Warnings.Select(w => w.Message))}");
        Assert.InRange(errors.Average(), 0, 3);
        Assert.InRange(errors.Average(), 0, 0.7 * slopes.Average());
        Assert.InRange(r, 0.95, 1);
        Assert.InRange(rms, 0, 15);
    }

    /// <summary>The truth on a grid: mean of what each pixel covers.</summary>
    private static Plane Averaged(string folder, Plane grid)
    {
        using var image = ImageFile.Open(Path.Combine(folder, "truth", "height_um.tif"));
        var fine = image.ReadWindow(0, 0, image.Facts.Width, image.Facts.Height)[0];
        var (columns, rows) = (Shares(fine.Width, grid.Width), Shares(fine.Height, grid.Height));
        var result = new Plane(grid.Width, grid.Height);
        for (var y = 0; y < grid.Height; y++)
            for (var x = 0; x < grid.Width; x++)
                result[x, y] = (float)rows[y].Sum(j => j.Share * columns[x].Sum(i => i.Share * fine[i.Index, j.Index]));
        return result;
    }

    private static (int Index, double Share)[][] Shares(int fine, int coarse) => [.. Enumerable.Range(0, coarse).Select(k =>
    {
        var (from, to) = ((double)k * fine / coarse, (k + 1.0) * fine / coarse);
        return Enumerable.Range((int)from, Math.Min(fine, (int)Math.Ceiling(to)) - (int)from).Select(i => (i, (Math.Min(to, i + 1) - Math.Max(from, i)) / (to - from))).ToArray();
    })];

    private static void Say(FormattableString text) => TestContext.Current.SendDiagnosticMessage(text.ToString(CultureInfo.InvariantCulture));
}
