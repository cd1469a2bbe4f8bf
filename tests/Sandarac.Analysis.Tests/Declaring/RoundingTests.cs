using Sandarac.Analysis.Declaring;

namespace Sandarac.Analysis.Tests.Declaring;

/// <summary>Guide to the Expression of Uncertainty in Measurement (JCGM 100:2008), 7.2.6: two figures of the uncertainty, the value rounded to match. The first line is its own example.</summary>
public class RoundingTests
{
    [Theory]
    [InlineData(10.05762, 0.027, "10.058", "0.027")]
    [InlineData(123.456, 0.5, "123.46", "0.50")]
    [InlineData(123.456, 12.0, "123", "12")]
    [InlineData(-0.0004, 0.05, "0.000", "0.050")]
    [InlineData(0.012345, null, "0.01235", null)]
    [InlineData(0.0, null, "0", null)]
    [InlineData(51234.0, null, "51234", null)]
    [InlineData(0.00000123456, null, "1.235e-6", null)]
    public void Numbers_have_the_digits_that_their_uncertainty_bears(double value, double? uncertainty, string expected, string? spread) =>
        Assert.Equal((expected, spread), Rounding.Rounded(value, uncertainty));
}
