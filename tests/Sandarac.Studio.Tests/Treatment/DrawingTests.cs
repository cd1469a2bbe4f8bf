using System.Xml.Linq;
using Sandarac.Imaging;
using Sandarac.Materials.Terms;
using Sandarac.Studio.Tests.Plans;
using Sandarac.Studio.Treatment;
using Sandarac.Studio.Treatment.Drawing;

namespace Sandarac.Studio.Tests.Treatment;

public sealed class DrawingTests
{
    [Fact]
    public void The_stairs_rise_with_the_days_and_say_how_far_it_is()
    {
        using var home = new TreatmentHome();
        var step = home.Begun()[0].Id;
        home.Write(TreatmentHome.Entry(step, 0, 2, home.Zone("left", 0, 0, 100, 100)));
        home.Write(TreatmentHome.Entry(step, 8, 2, home.Zone("more", 0, 0, 300, 100)));
        var drawing = XElement.Parse(ProgressDrawing.Svg(new TreatmentProgress(home.Studio).Of(home.Painting.Id)[0]));
        var words = drawing.Descendants().Where(e => e.Name.LocalName == "text").Select(e => e.Value).ToList();
        Assert.All(["0 %", "100 %", "2026-03-02", "2026-03-10", "75 %"], w => Assert.Contains(w, words));
        var heights = drawing.Descendants().Where(e => e.Name.LocalName == "circle").Select(e => (double)e.Attribute("cy")!).ToList();
        // 42 mm stand for the whole: a quarter lies 10.5 mm, three quarters 31.5 mm above nothing.
        Assert.Equal(21, heights[0] - heights[1], 1);
    }

    [Fact]
    public void A_plan_shows_a_days_places_and_retouching_has_a_hatch_of_its_own()
    {
        using var home = new TreatmentHome();
        var steps = home.Begun();
        home.Write(TreatmentHome.Entry(steps[0].Id, 0, 2, home.Zone("left", 0, 0, 100, 100)));
        string Words(Guid step, DateOnly day) => string.Join('\n', XElement.Parse(PlacesDrawing.Svg(home.Studio, step, day)).Descendants().Where(e => e.Name.LocalName == "text").Select(e => e.Value));
        Assert.Contains("100 cm2", Words(steps[0].Id, TreatmentHome.Day), StringComparison.Ordinal);
        Assert.Contains("400 cm2", Words(steps[0].Id, TreatmentHome.Day.AddDays(-1)), StringComparison.Ordinal);
        Assert.DoesNotContain("retouched", Words(steps[0].Id, TreatmentHome.Day), StringComparison.Ordinal);
        Assert.Contains("retouched", Words(steps[1].Id, TreatmentHome.Day), StringComparison.Ordinal);
        Assert.Equal("plan-size", Assert.Throws<InputProblem>(() => PlacesDrawing.Svg(home.Studio, steps[0].Id, size: new(5, 5))).Code);
        Assert.Equal("unknown-step", Assert.Throws<InputProblem>(() => PlacesDrawing.Svg(home.Studio, Guid.NewGuid())).Code);
    }

    /// <summary>As for the hatches of terms: in a grey print each two lie at least twice as far from each other as either lies from itself printed at another place, by the texture measure that is checked against scikit-image.</summary>
    [Fact]
    public void Done_to_do_and_retouched_are_told_apart_in_a_grey_print()
    {
        Appearance[] looks = [PlacesDrawing.Done, PlacesDrawing.ToDo, PlacesDrawing.Retouched];
        double[] Print(Appearance a, double at) => Texture.Of([.. Patch.Of(a.Hatch, at, at).Select(ink => 1.0 - ink)]);
        var (prints, moved) = (looks.Select(l => Print(l, 0)).ToArray(), looks.Select(l => Print(l, 3.7)).ToArray());
        var spread = Texture.Spread(prints);
        for (var i = 0; i < looks.Length; i++)
            for (var j = 0; j < i; j++)
            {
                var own = Math.Max(Texture.Distance(prints[i], moved[i], spread), Texture.Distance(prints[j], moved[j], spread));
                Assert.True(Texture.Distance(prints[i], prints[j], spread) >= 2 * own, $"{looks[i].Name} and {looks[j].Name}");
            }
    }
}
