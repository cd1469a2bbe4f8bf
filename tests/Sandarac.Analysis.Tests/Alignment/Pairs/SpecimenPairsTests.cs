using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging.Geometry;
using Sandarac.Specimen;

namespace Sandarac.Analysis.Tests.Alignment.Pairs;

/// <summary>The specimen's photographs onto the one in daylight, against its truth: each was taken from its own place by its own lens.</summary>
public class SpecimenPairsTests(SpecimenFixture specimen)
{
    private const string Daylight = "VIS_01.tif";

    public static TheoryData<string> Lights =>
    [
        "UVL_01.tif", "IR_01.tif", "RAK_N_az000_el15.tif", "RAK_NE_az045_el15.tif", "RAK_E_az090_el15.tif", "RAK_SE_az135_el15.tif",
        "RAK_S_az180_el15.tif", "RAK_SW_az225_el15.tif", "RAK_W_az270_el15.tif", "RAK_NW_az315_el15.tif",
    ];

    /// <summary>Over the whole face: where a pixel comes to lie on the daylight photograph, and where it truly belongs.</summary>
    [Theory]
    [MemberData(nameof(Lights))]
    public void Known_every_light_comes_to_lie_on_daylight(string name)
    {
        using var pairs = new TestPairs();
        var (reference, moving) = (pairs.Open(specimen.Photograph(Daylight)), pairs.Open(specimen.Photograph(name)));
        var found = TestPairs.Align(reference, moving);
        Assert.True(found.Verdict == PairVerdict.Aligned, found.Reason);
        var (still, moved) = (specimen.TrueMap(Daylight), specimen.TrueMap(name));
        double[] errors = [.. Face().Select(mm => found.Map!.ToPlane(moved.ToPixel(mm)).DistanceTo(still.ToPixel(mm))).Order()];
        TestPairs.Say(name, found, errors);
        Assert.InRange(errors[errors.Length * 95 / 100], 0, 2);
        Assert.InRange(errors[errors.Length / 2], 0, 0.25);
    }

    [Theory]
    [InlineData("VIS_chart.tif")]
    [InlineData("XSEC_S1_VIS.tif")]
    public void Invalid_other_subjects_are_not_aligned(string name)
    {
        using var pairs = new TestPairs();
        var found = TestPairs.Align(pairs.Open(specimen.Photograph(Daylight)), pairs.Open(specimen.Photograph(name)), depth: SearchDepth.Likely);
        TestContext.Current.SendDiagnosticMessage($"{name}: {found.Verdict}; {found.Reason}");
        Assert.NotEqual(PairVerdict.Aligned, found.Verdict);
    }

    private static IEnumerable<Point2> Face() => Enumerable.Range(0, 441).Select(i => new Point2(i % 21 / 20.0 * SpecimenPainting.WidthMm, i / 21 / 20.0 * SpecimenPainting.HeightMm));
}
