using System.Text.Json;
using Sandarac.Imaging;
using Sandarac.Specimen.Later;

namespace Sandarac.Specimen.Tests.Drawing;

[Trait("Speed", "slow")]
public class LaterTests
{
    private static string Draw(LaterState? state, string? only = null)
    {
        var folder = Directory.CreateTempSubdirectory("sandarac-later-").FullName;
        SpecimenDrawing.Draw(new SpecimenSettings(40, 3, [only ?? "VIS_02.tif"], Later: state), folder, cancellation: TestContext.Current.CancellationToken);
        return folder;
    }

    [Fact]
    public void The_same_painting_is_photographed_again_with_or_without_changes()
    {
        var (first, unchanged, changed) = (Draw(null, "VIS_01.tif"), Draw(LaterState.Unchanged), Draw(LaterState.Changed));
        try
        {
            byte[] Height(string folder) => File.ReadAllBytes(Path.Combine(folder, "truth", "height_um.tif"));
            Assert.Equal(Height(first), Height(unchanged));
            Assert.NotEqual(Height(first), Height(changed));
            JsonElement Changes(string folder) => JsonDocument.Parse(File.ReadAllText(Path.Combine(folder, "truth", "changes.json"))).RootElement.GetProperty("changes");
            Assert.Equal(0, Changes(unchanged).GetArrayLength());
            Assert.Equal(32, Changes(changed).GetArrayLength());
            var loss = Changes(changed).EnumerateArray().Where(c => c.GetProperty("kind").GetString() == "loss" && c.GetProperty("widthMm").GetDouble() == 3).Average(c => c.GetProperty("areaMm2").GetDouble());
            Assert.Equal(1, loss / (Math.PI * 1.5 * 1.5), 0.35);
        }
        finally
        {
            foreach (var folder in new[] { first, unchanged, changed }) Directory.Delete(folder, true);
        }
    }

    [Fact]
    public void Invalid_photographs_of_the_first_session_are_refused_for_a_later_one() =>
        Assert.Equal("unknown-photograph", Assert.Throws<InputProblem>(() => Draw(LaterState.Changed, "VIS_01.tif")).Code);
}
