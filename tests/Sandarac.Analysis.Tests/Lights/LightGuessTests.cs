using Sandarac.Analysis.Lights;

namespace Sandarac.Analysis.Tests.Lights;

public class LightGuessTests
{
    [Theory]
    [InlineData("VIS_01.tif", "VIS", Confidence.Certain)]
    [InlineData("01VIS.tif", "VIS", Confidence.Certain)]
    [InlineData("UVL01.tif", "UVL", Confidence.Certain)]
    [InlineData("uvf_front.tif", "UVL", Confidence.Certain)]
    [InlineData("UV_01.tif", "UVL", Confidence.Probable)]
    [InlineData("UVR_01.tif", "UVR", Confidence.Certain)]
    [InlineData("UV_reflected_01.tif", "UVR", Confidence.Probable)]
    [InlineData("IR_01.tif", "IR", Confidence.Certain)]
    [InlineData("IRR_mosaic.tif", "IRR", Confidence.Certain)]
    [InlineData("IR_transmitted.tif", "IRT", Confidence.Certain)]
    [InlineData("ferry X-ray.tif", "XR", Confidence.Certain)]
    [InlineData("XR_plate3.tif", "XR", Confidence.Certain)]
    [InlineData("TL_01.tif", "TRANS", Confidence.Probable)]
    [InlineData("TRANS_01.tif", "TRANS", Confidence.Certain)]
    [InlineData("SPEC_top.tif", "SPEC", Confidence.Certain)]
    [InlineData("RL_01.tif", "RAK", Confidence.Probable)]
    [InlineData("RL_left.tif", "RAK", Confidence.Certain)]
    [InlineData("Raking light from the top.tif", "RAK", Confidence.Certain)]
    [InlineData("XSEC_S1_UV.tif", "XSEC", Confidence.Certain)]
    [InlineData("cross-section S2 visible.tif", "XSEC", Confidence.Certain)]
    [InlineData("VIS_IR.tif", "VIS", Confidence.Possible)]
    [InlineData("infrared/DSC_0441.tif", "IR", Confidence.Probable)]
    [InlineData("UV/UV_0441.tif", "UVL", Confidence.Certain)]
    [InlineData("UV/UVR_0441.tif", "UVR", Confidence.Certain)]
    [InlineData("VIS/IR_0441.tif", "IR", Confidence.Possible)]
    public void Known_names_give_their_light(string path, string light, Confidence confidence)
    {
        var guess = LightGuess.From(path);
        Assert.Equal((light, confidence), (guess.Light?.Code, guess.Confidence));
    }

    [Theory]
    [InlineData("IRIS_portrait.tif")]
    [InlineData("river.tif")]
    [InlineData("pearl_earring.tif")]
    [InlineData("girls_and_world.tif")]
    [InlineData("Visby_harbour.tif")]
    [InlineData("firs.tif")]
    [InlineData("ravine.tif")]
    [InlineData("transport.tif")]
    [InlineData("DSC_0441.tif")]
    [InlineData(".tif")]
    public void Codes_inside_words_are_no_codes(string path)
    {
        var guess = LightGuess.From(path);
        Assert.Null(guess.Light);
        Assert.Equal(Confidence.Possible, guess.Confidence);
        Assert.Contains("no light is named", guess.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("RAK_NW_az315_el15.tif", "NW", 315.0, 15.0)]
    [InlineData("RAK_N_az000_el15.tif", "N", 0.0, 15.0)]
    [InlineData("RL_left.tif", "W", null, null)]
    [InlineData("raking top.tif", "N", null, null)]
    [InlineData("RAK_upper_left_15deg.tif", "NW", null, 15.0)]
    [InlineData("RAK_TL.tif", "NW", null, null)]
    [InlineData("RL_R.tif", "E", null, null)]
    [InlineData("raking/left/DSC_0001.tif", "W", null, null)]
    [InlineData("RAK_az_225.tif", "SW", 225.0, null)]
    [InlineData("RAK_az999.tif", null, null, null)]
    public void Known_names_give_the_lamp(string path, string? side, double? azimuth, double? elevation)
    {
        var guess = LightGuess.From(path);
        Assert.Equal(Light.Raking, guess.Light);
        Assert.Equal((side, azimuth, elevation), (guess.Side, guess.AzimuthDegrees, guess.ElevationDegrees));
    }

    [Fact]
    public void A_side_against_the_azimuth_makes_the_guess_possible_only() => Assert.Equal(Confidence.Possible, LightGuess.From("RAK_N_az180.tif").Confidence);

    [Fact]
    public void Reasons_name_the_words_and_their_places()
    {
        Assert.Equal("\"RL\" in the file name, \"left\" in the folder", LightGuess.From("left/RL_01.tif").Reason);
        Assert.Equal(Light.Infrared, LightGuess.From("DSC_0441.tif", "Infrared, 900-1000 nm").Light);
        Assert.Contains("in the file's description", LightGuess.From("DSC_0441.tif", "Infrared, 900-1000 nm").Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("VIS_01.tif", PhotographSubject.Painting)]
    [InlineData("VIS_chart.tif", PhotographSubject.Chart)]
    [InlineData("VIS_flat.tif", PhotographSubject.FlatField)]
    [InlineData("ferry_VIS_flat.tif", PhotographSubject.FlatField)]
    [InlineData("RAK_N_az000_el15_flat.tif", PhotographSubject.FlatField)]
    [InlineData("flat-field.tif", PhotographSubject.FlatField)]
    [InlineData("flats/VIS_01.tif", PhotographSubject.FlatField)]
    [InlineData("IR_dark.tif", PhotographSubject.DarkFrame)]
    [InlineData("dark_forest_VIS.tif", PhotographSubject.Painting)]
    [InlineData("VIS_detail_03.tif", PhotographSubject.Detail)]
    [InlineData("XSEC_S1_VIS.tif", PhotographSubject.Sample)]
    [InlineData("XR_plate3.tif", PhotographSubject.Detail)]
    public void Known_names_give_the_subject(string path, PhotographSubject subject) => Assert.Equal(subject, LightGuess.From(path).Subject);

    [Fact]
    public void Sections_and_plates_give_their_names()
    {
        var section = LightGuess.From("XSEC_S2_UV.tif");
        Assert.Equal(("S2", Light.Luminescence), (section.Sample, section.SectionLight));
        Assert.Equal("4", LightGuess.From("cross-section sample 4.tif").Sample);
        Assert.Equal(3, LightGuess.From("XR_plate3.tif").Plate);
        Assert.Equal(2, LightGuess.From("XR plate 2.tif").Plate);
    }
}
