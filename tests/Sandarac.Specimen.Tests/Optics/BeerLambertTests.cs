using Sandarac.Specimen.Ageing;
using Sandarac.Specimen.Layers;
using Sandarac.Specimen.Optics;
using Sandarac.Specimen.Support;

namespace Sandarac.Specimen.Tests.Optics;

/// <summary>Figures worked by hand from I = I0 exp(-mu x).</summary>
public class BeerLambertTests
{
    [Fact]
    public void Known_bare_board_between_the_bars_lets_67_percent_through() =>
        // 8000 um x 5e-5 per um = 0.400; exp(-0.400) = 0.67032.
        Assert.Equal(0.67032, Math.Exp(-PanelBuild.Attenuation(0, 20, 20)), 4);

    [Fact]
    public void Known_a_fixed_bar_of_11_mm_adds_0_55() =>
        Assert.Equal(0.550, PanelBuild.Attenuation(0, 20, 206) - PanelBuild.Attenuation(0, 20, 20), 4);

    [Fact]
    public void Known_60_um_of_lead_white_add_0_36()
    {
        var canvas = new Canvas(new PlaneGrid(40));
        canvas.Lay(0, Bodies.LeadWhite, 60);
        // 60 um x 6e-3 per um.
        Assert.Equal(0.36, canvas.Glow[0][3], 4);
        Assert.Equal(60, canvas.Height[0]);
    }

    [Fact]
    public void Known_varnish_filters_twice()
    {
        var canvas = new Canvas(new PlaneGrid(40));
        canvas.Reflectance[0] = System.Runtime.Intrinsics.Vector128<float>.One;
        Resin.Aged.Lay(canvas, 0, 25);
        // Green: 2 x 25 um x 0.0034 per um = 0.17; exp(-0.17) = 0.84366.
        Assert.Equal(0.84366, canvas.Reflectance[0][1], 4);
    }
}
