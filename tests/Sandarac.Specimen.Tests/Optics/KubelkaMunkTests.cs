using System.Runtime.Intrinsics;
using CsCheck;
using Sandarac.Specimen.Optics;

namespace Sandarac.Specimen.Tests.Optics;

/// <summary>Limiting cases published by P. Kubelka, J. Opt. Soc. Am. 38 (1948) 448, and Kubelka and Munk (1931).</summary>
public class KubelkaMunkTests
{
    private static float Over(double background, double k, double s, double um) =>
        KubelkaMunk.Over(Vector128.Create((float)background), Vector128.Create((float)k), Vector128.Create((float)s), (float)um)[0];

    [Fact]
    public void Known_infinite_thickness_for_K_half_of_S() =>
        // 1 + 0.5 - sqrt(0.25 + 1) = 0.381966, worked by hand.
        Assert.Equal(0.381966, KubelkaMunk.Infinite(0.05, 0.10), 6);

    [Fact]
    public void A_thick_layer_shows_its_own_reflectance_whatever_lies_beneath() =>
        Gen.Select(Gen.Double[0.001, 0.3], Gen.Double[0.01, 0.3], Gen.Double[0, 0.95]).Sample((k, s, background) =>
            Math.Abs(Over(background, k, s, 3000) - KubelkaMunk.Infinite(k, s)) < 2e-4);

    [Fact]
    public void No_layer_shows_the_background() =>
        Gen.Select(Gen.Double[0.001, 0.3], Gen.Double[0.01, 0.3], Gen.Double[0, 0.95]).Sample((k, s, background) =>
            Over(background, k, s, 0) == (float)background);

    [Theory]
    [InlineData(0.05, 10)]
    [InlineData(0.10, 30)]
    public void Known_white_without_absorption_over_black_is_SX_over_one_plus_SX(double s, double um) =>
        // The limit for K = 0; the code's floor of b^2 at 1e-6 allows 0.001.
        Assert.Equal(s * um / (1 + s * um), Over(0, 0, s, um), 3);

    [Fact]
    public void Reflectance_lies_between_background_and_thick_layer_and_moves_towards_the_layer() =>
        Gen.Select(Gen.Double[0.001, 0.3], Gen.Double[0.01, 0.3], Gen.Double[0, 0.95], Gen.Double[1, 60]).Sample((k, s, background, um) =>
        {
            var (thin, thicker, all) = (Over(background, k, s, um), Over(background, k, s, 1.5 * um), KubelkaMunk.Infinite(k, s));
            return Math.Abs(thicker - all) <= Math.Abs(thin - all) + 1e-4 && thin >= Math.Min(background, all) - 1e-4
                && thin <= Math.Max(background, all) + 1e-4;
        });

    [Fact]
    public void A_tinted_paint_shows_its_tint_when_thick()
    {
        var paint = Bodies.LeadWhite.Tinted(0x807060);
        var wanted = Colour.FromHex(0x807060);
        for (var band = 0; band < 3; band++) Assert.Equal(wanted[band], paint.Masstone(band), 4);
    }
}
