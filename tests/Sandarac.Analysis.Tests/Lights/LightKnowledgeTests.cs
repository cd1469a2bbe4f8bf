using Sandarac.Analysis.Lights;
using Sandarac.Materials.Lights;

namespace Sandarac.Analysis.Tests.Lights;

public class LightKnowledgeTests
{
    [Fact]
    public void Every_light_is_described_with_its_source()
    {
        Assert.Equal(Light.All.Select(l => l.Code).Order(StringComparer.Ordinal), LightKnowledge.All.Select(l => l.Code).Order(StringComparer.Ordinal));
        Assert.All(LightKnowledge.All, l => Assert.True(l.Shows.Length > 0 && l.SetUp.Length > 0 && (l.Source.Contains("read", StringComparison.Ordinal) || l.Source.Contains("memory", StringComparison.Ordinal)), l.Code));
    }

    [Theory]
    [InlineData("UVL", "local rules")]
    [InlineData("UVR", "local rules")]
    [InlineData("XR", "licensed")]
    public void What_can_hurt_carries_its_caution(string code, string words) => Assert.Contains(words, LightKnowledge.Find(code)!.Caution, StringComparison.Ordinal);
}
