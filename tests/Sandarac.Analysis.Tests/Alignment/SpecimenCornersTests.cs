using Sandarac.Analysis.Alignment;
using Sandarac.Analysis.Alignment.Lenses;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging.Geometry;
using Sandarac.Specimen;

namespace Sandarac.Analysis.Tests.Alignment;

/// <summary>Corners on the specimen in every light, against its truth.</summary>
public class SpecimenCornersTests(SpecimenFixture specimen, DetailedSpecimenFixture detailed)
{
    public static TheoryData<string> WholeFaces =>
    [
        "VIS_01.tif", "UVL_01.tif", "IR_01.tif", "RAK_N_az000_el15.tif", "RAK_NE_az045_el15.tif", "RAK_E_az090_el15.tif", "RAK_SE_az135_el15.tif",
        "RAK_S_az180_el15.tif", "RAK_SW_az225_el15.tif", "RAK_W_az270_el15.tif", "RAK_NW_az315_el15.tif",
    ];

    [Theory]
    [MemberData(nameof(WholeFaces))]
    public void Known_corners_are_found_in_every_light(string name) => Check(specimen, name);

    [Theory]
    [InlineData("VIS_01.tif")]
    [InlineData("IR_01.tif")]
    [InlineData("RAK_S_az180_el15.tif")]
    public void Known_corners_are_found_in_full_detail(string name) => Check(detailed, name);

    private static void Check(DrawnSpecimen specimen, string name)
    {
        var found = Find(specimen, name);
        Assert.True(found.Verdict == FaceVerdict.Aligned, found.Reason);
        var truth = specimen.Corners(name);
        double[] errors = [.. truth.Select((t, i) => t.DistanceTo(found.Corners[i]))];
        var (pose, trueMap) = (specimen.Truth(name), specimen.TrueMap(name));
        var (map, fit) = FaceAlignment.FromCorners(found.Corners, CameraLens.AboutMiddle(found.K1, pose.GetProperty("width").GetInt32(), pose.GetProperty("height").GetInt32()), SpecimenPainting.HeightMm, SpecimenPainting.WidthMm, found.ResidualPx);
        // Over the whole face: where the found map and the true map put the same pixel.
        double[] misplaced = [.. Grid().Select(mm => map.ToPlane(trueMap.ToPixel(mm)).DistanceTo(mm) / fit.MmPerPixel)];
        TestContext.Current.SendDiagnosticMessage(FormattableString.Invariant(
            $"{name}: corners {string.Join(" ", errors.Select(e => FormattableString.Invariant($"{e:0.00}")))} px; face median {misplaced.Order().ElementAt(misplaced.Length / 2):0.00} px, max {misplaced.Max():0.00} px = {misplaced.Max() * fit.MmPerPixel:0.00} mm; {found.Reason} k1 {found.K1:0.0000}"));
        Assert.InRange(misplaced.Order().ElementAt(misplaced.Length / 2), 0, 1);
        Assert.InRange(errors.Max(), 0, 1);
    }

    [Theory]
    [InlineData("XR_plate1.tif")]
    [InlineData("XR_plate2.tif")]
    [InlineData("XR_plate3.tif")]
    [InlineData("XR_plate4.tif")]
    [InlineData("XSEC_S1_VIS.tif")]
    [InlineData("XSEC_S2_UV.tif")]
    [InlineData("VIS_chart.tif")]
    [InlineData("VIS_flat.tif")]
    [InlineData("IR_flat.tif")]
    [InlineData("UVL_flat.tif")]
    public void Photographs_without_the_whole_face_have_no_answer(string name)
    {
        var found = Find(specimen, name);
        TestContext.Current.SendDiagnosticMessage($"{name}: {found.Verdict} {found.Reason}");
        Assert.True(found.Verdict == FaceVerdict.NotAligned, found.Reason);
    }

    private static FaceCorners Find(DrawnSpecimen specimen, string name) =>
        FaceCorners.From(TestRun.Of(new FaceCornersReading(), [("photograph", TestRun.Open(specimen.Photograph(name), LightGuess.From(name).Light))]).Outcome);

    private static IEnumerable<Point2> Grid() => Enumerable.Range(0, 121).Select(i => new Point2(i % 11 / 10.0 * SpecimenPainting.WidthMm, i / 11 / 10.0 * SpecimenPainting.HeightMm));
}
