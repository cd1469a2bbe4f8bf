using System.Text.Json;
using Sandarac.Analysis.Alignment.Pairs;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Tests.Alignment.Pairs;

public class SameResultTests
{
    /// <summary>JSON holds doubles to the last bit (shortest form that reads back the same).</summary>
    [Theory]
    [InlineData(null)]
    [InlineData(MapModel.Smooth)]
    public void Known_same_bits_for_any_number_of_threads(MapModel? model)
    {
        var texture = new Texture(4);
        using var pairs = new TestPairs();
        var map = new HomographyMap([1.03, 0.02, -9, -0.02, 0.98, 11, 4e-5, -3e-5, 1]);
        var (reference, moving) = (pairs.Float(texture.Photograph(420, 360).AddNoise(20, 1)), pairs.Float(texture.Photograph(420, 360, map.ToPlane).AddNoise(20, 2)));
        var results = new[] { 1, 2, 4 }.Select(threads => JsonSerializer.Serialize(TestPairs.Align(reference, moving, model, threads) with { Stages = [] })).ToList();
        Assert.Contains("PixelToPlane", results[0], StringComparison.Ordinal);
        Assert.Equal(results[0], results[1]);
        Assert.Equal(results[0], results[2]);
    }
}
