using Sandarac.Imaging.Formats;
using Sandarac.Specimen.Cameras;

namespace Sandarac.Specimen.Tests.Drawing;

[Collection(nameof(DrawnOnce))]
public class PhotographTests(DrawnSpecimen drawn)
{
    public static IEnumerable<TheoryDataRow<string>> Names => SpecimenDrawing.PhotographNames.Select(n => new TheoryDataRow<string>(n));

    [Theory]
    [MemberData(nameof(Names))]
    public void Every_photograph_is_16_bit_with_profile_resolution_and_exif(string name)
    {
        using var file = ImageFile.Open(drawn.Photograph(name));
        Assert.Equal(SampleFormat.UInt16, file.Facts.Format);
        Assert.Equal(name.StartsWith("IR", StringComparison.Ordinal) || name.StartsWith("XR", StringComparison.Ordinal) ? 1 : 3,
            file.Facts.Bands);
        Assert.NotNull(file.Facts.IccDescription);
        Assert.StartsWith("Brackwater", file.Facts.Camera, StringComparison.Ordinal);
        Assert.Equal(2024, file.Facts.TakenAt?.Year);
        Assert.False(string.IsNullOrEmpty(file.Facts.Description));
        if (!name.StartsWith("XSEC", StringComparison.Ordinal)) Assert.Equal(40, file.Facts.Scale!.Value.PixelsPerInch, 2);
    }

    [Fact]
    public void Threads_do_not_change_a_value()
    {
        using var alone = new Folder();
        string[] names = [.. SpecimenDrawing.PhotographNames.Where(n => !n.StartsWith("XSEC_S2", StringComparison.Ordinal))];
        SpecimenDrawing.Draw(new SpecimenSettings(DrawnSpecimen.PixelsPerInch, OnlyPhotographs: names, Threads: 1), alone.Path, null,
            TestContext.Current.CancellationToken);
        foreach (var name in names) Assert.True(Same(drawn.Photograph(name), Path.Combine(alone.Path, "photographs", name)), name);
        foreach (var truth in Directory.EnumerateFiles(Path.Combine(alone.Path, "truth"), "*", SearchOption.AllDirectories))
            Assert.True(Same(truth, drawn.Truth(Path.GetRelativePath(Path.Combine(alone.Path, "truth"), truth))), truth);
    }

    [Fact]
    public void The_face_fills_85_to_92_percent_of_the_frames_width()
    {
        foreach (var name in SpecimenDrawing.PhotographNames.Where(n => n.EndsWith("_01.tif", StringComparison.Ordinal)
            || n.StartsWith("RAK", StringComparison.Ordinal)))
        {
            var (pose, width) = (drawn.Pose(name), drawn.Read(drawn.Photograph(name))[0].Width);
            var (left, right) = (pose.ToPixel(new(0, 206)).X, pose.ToPixel(new(518, 206)).X);
            Assert.InRange((right - left) / width, 0.85, 0.92);
        }
    }

    [Fact]
    public void Known_grey_of_the_chart_reflects_what_the_CIE_lightness_formula_says()
    {
        // CIE 15:2004: L* = 50 is Y = 0.18419, L* = 80 is Y = 0.56681. The flat's card reflects 0.55.
        foreach (var (patch, luminance) in new[] { (21, 0.18419), (19, 0.56681) })
        {
            var (x, y, side) = Chart.Box(patch);
            var seen = 0.55 * drawn.Mean("VIS_chart.tif", "VIS_flat.tif", 1, (px, py) => px > x + 5 && px < x + side - 5 && py > y + 5
                && py < y + side - 5);
            Assert.InRange(seen, 0.98 * luminance, 1.02 * luminance);
        }
    }

    [Fact]
    public void Every_patch_can_be_shown_in_sRGB()
    {
        for (var patch = 0; patch < 24; patch++)
        {
            var (x, y, side) = Chart.Box(patch);
            var linear = Chart.At(x + side / 2, y + side / 2);
            for (var band = 0; band < 3; band++) Assert.InRange(linear[band], 0.01f, 0.99f);
        }
    }

    [Fact]
    public void The_list_names_every_photograph_once()
    {
        var lines = File.ReadAllLines(drawn.Photograph("photographs.csv"));
        Assert.Equal("file,light,subject,azimuth,elevation", lines[0]);
        Assert.Equal(SpecimenDrawing.PhotographNames, lines[1..].Select(l => l.Split(',')[0]));
        Assert.Contains("RAK_SW_az225_el15.tif,RAK,Painting,225,15", lines);
    }

    private static bool Same(string a, string b) => File.ReadAllBytes(a).AsSpan().SequenceEqual(File.ReadAllBytes(b));
}
