using Sandarac.Imaging.Colour;

namespace Sandarac.Imaging.Tests.Colour;

public class ColourTests
{
    /// <summary>skimage.color.rgb2lab of encoded values; References/Colour/SOURCE.md.</summary>
    [Fact]
    public void Known_lab_agrees_with_scikit_image()
    {
        foreach (var row in Rows())
        {
            var lab = CieLab.FromLinear(row[0], row[1], row[2]);
            Assert.Equal(row[3], lab.L, 2e-3);
            Assert.Equal(row[4], lab.A, 2e-3);
            Assert.Equal(row[5], lab.B, 2e-3);
        }
    }

    /// <summary>Linear light of CIELAB colours: skimage.color.lab2rgb of scikit-image 0.19.3, its encoding undone.</summary>
    [Theory]
    [InlineData(50, 20, -30, 0.2106888, 0.15430417, 0.40220806)]
    [InlineData(8, 1, -2, 0.00892386, 0.00867849, 0.01042188)]
    [InlineData(80, -25, 40, 0.44262942, 0.64138595, 0.19377973)]
    public void Light_of_a_cielab_colour_agrees_with_scikit_image(double l, double a, double b, double red, double green, double blue)
    {
        var light = new CieLab(l, a, b).ToLinear();
        Assert.Equal(red, light.Red, 1e-4);
        Assert.Equal(green, light.Green, 1e-4);
        Assert.Equal(blue, light.Blue, 1e-4);
    }

    /// <summary>colorsys.rgb_to_hsv of the encoded values.</summary>
    [Fact]
    public void Known_hues_agree_with_pythons_hexcone()
    {
        foreach (var row in Rows()) Assert.Equal(row[9], ColourName.Degrees(row[6], row[7], row[8]), 1e-6);
    }

    /// <summary>Colours whose names nobody disputes: the primaries, and colours of everyday things.</summary>
    [Theory]
    [InlineData(1, 0, 0, "red")]
    [InlineData(0, 1, 0, "green")]
    [InlineData(0, 0, 1, "blue")]
    [InlineData(1, 1, 0, "yellow")]
    [InlineData(1, 0, 1, "magenta")]
    [InlineData(1, 1, 1, "white")]
    [InlineData(0.2, 0.2, 0.2, "grey")]
    [InlineData(0, 0, 0, "black")]
    [InlineData(1, 0.35, 0, "orange")]
    [InlineData(0.15, 0.07, 0.02, "brown")]
    [InlineData(1, 0.5, 0.55, "pink")]
    public void Known_colours_have_their_names(double r, double g, double b, string hue) => Assert.Equal(hue, ColourName.FromLinear(r, g, b)!.Hue);

    [Fact]
    public void Extreme_values_are_named_or_have_no_name()
    {
        Assert.Null(ColourName.FromLinear(double.NaN, 0, 0));
        Assert.Null(ColourName.FromLinear(0, double.PositiveInfinity, 0));
        Assert.Equal("white", ColourName.FromLinear(3, 3, 3)!.ToString());
        Assert.Equal("black", ColourName.FromLinear(-1, -1, -1)!.ToString());
        Assert.Equal("dark strong blue", ColourName.FromLinear(0, 0, 1)!.ToString());
    }

    private static IEnumerable<double[]> Rows() => File.ReadLines(Path.Combine(AppContext.BaseDirectory, "References", "Colour", "colours.csv")).Skip(1)
        .Select(line => line.Split(',').Select(v => double.Parse(v, System.Globalization.CultureInfo.InvariantCulture)).ToArray());
}
