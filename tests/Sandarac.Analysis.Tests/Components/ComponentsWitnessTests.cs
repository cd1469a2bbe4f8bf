using Sandarac.Analysis.Components;
using static Sandarac.Analysis.Tests.Components.ComponentScene;

namespace Sandarac.Analysis.Tests.Components;

/// <summary>Against scikit-learn's principal components and SciPy's generalised eigenproblem (References/Components/SOURCE.md); both are double throughout: 1e-9.</summary>
public class ComponentsWitnessTests
{
    private static readonly Dictionary<string, string> All = new() { ["written"] = "4" };

    [Theory]
    [InlineData("covariance")]
    [InlineData("correlation")]
    public void Known_principal_components_of_scikit_learn(string method)
    {
        var (outcome, _) = Run(new ComponentsReading(), Layers(), new(All) { ["method"] = method });
        AssertRow(Rows($"{method}-variance")[0], outcome.Values("variance"), 1e-9);
        var weights = outcome.Values("weight").Chunk(4).ToArray();
        for (var k = 0; k < 4; k++) AssertRow(Rows($"{method}-weight")[k], weights[k], 1e-9);
        Assert.Empty(outcome.Warnings);
    }

    [Fact]
    public void Known_minimum_noise_fraction_of_SciPy()
    {
        var (outcome, _) = Run(new ComponentsReading(), Layers(), new(All) { ["method"] = "noise-fraction" });
        AssertRow(Rows("noise")[0], outcome.Values("band-noise"), 1e-9);
        AssertRow(Rows("noise-fraction")[0], outcome.Values("noise-fraction"), 1e-9);
        var (weights, loadings) = (outcome.Values("weight").Chunk(4).ToArray(), outcome.Values("loading").Chunk(4).ToArray());
        for (var k = 0; k < 4; k++)
        {
            AssertRow(Rows("noise-weight")[k], weights[k], 1e-9);
            AssertRow(Rows("loading")[k], loadings[k], 1e-9);
        }
    }

    [Fact]
    public void The_rasters_hold_the_weighted_sums()
    {
        var (outcome, rasters) = Run(new ComponentsReading(), Layers(), All);
        var (bands, weights) = (Bands(), outcome.Values("weight").Chunk(4).ToArray());
        var mean = Statistics(bands).Mean;
        for (var k = 0; k < 4; k++)
            foreach (var i in (int[])[0, 77, 600, 1198])
                Assert.Equal(Enumerable.Range(0, 4).Sum(b => weights[k][b] * (bands[b].Data[i] - mean[b])), rasters[$"component-{k + 1}"][0].Data[i], 1e-6);
    }
}
