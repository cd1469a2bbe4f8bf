using Sandarac.Imaging;
using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;

namespace Sandarac.Studio.Tests.Walking;

public sealed class WalkRecordTests : IDisposable
{
    private readonly TemporaryStudio _home = new();

    public void Dispose() => _home.Dispose();

    private static WalkStep Step(double width = 60, string a = "p-1f5c1b8e-0000-4000-8000-000000000001", string? b = null, double amount = 0.5, double? azimuth = null, double? elevation = null, string caption = "", double x = 10) =>
        new(Guid.CreateVersion7(), " A view ", caption, x, 20, width, a, b, ViewCompare.Alone, amount, azimuth, elevation, []);

    [Fact]
    public void A_walk_is_written_corrected_and_found_by_its_title()
    {
        var (walks, painting) = (new Walks(_home.Studio), _home.AddPainting());
        var walk = walks.Create(painting.Id, new WalkContent { Title = " Under the varnish ", Language = "pt-BR", Steps = [Step(), Step(azimuth: 315, elevation: 20)] }, "marta");
        Assert.Equal(("Under the varnish", "A view"), (walk.Content.Title, walk.Content.Steps[0].Title));
        walks.Change(walk.Id, 1, walk.Content with { Steps = [walk.Content.Steps[1], walk.Content.Steps[0]] }, "marta");
        Assert.Equal(walk.Content.Steps[1].Id, walks.Named(painting.Id, "under the VARNISH").Content.Steps[0].Id);
        Assert.Equal(walk.Id, walks.Named(painting.Id, walk.Id.ToString()).Id);
        Assert.Equal(walk.Content.Steps[0].Id, walks.History(walk.Id)[0].Content.Steps[0].Id);
        var problem = Assert.Throws<InputProblem>(() => walks.Named(painting.Id, "Another"));
        Assert.Equal("unknown-walk", problem.Code);
        Assert.Contains("Under the varnish", problem.Remedy, StringComparison.Ordinal);
        Assert.Equal("walk-empty", Assert.Throws<InputProblem>(() => walks.Shown(walks.Create(painting.Id, new WalkContent { Title = "Empty" }, "marta").Id)).Code);
    }

    [Fact]
    public void Invalid_views_are_refused()
    {
        var (walks, painting) = (new Walks(_home.Studio), _home.AddPainting());
        void Refused(string code, WalkContent content) => Assert.Equal(code, Assert.Throws<InputProblem>(() => walks.Create(painting.Id, content, "marta")).Code);
        Refused("name", new WalkContent());
        Refused("walk-language", new WalkContent { Title = "A", Language = "English, please" });
        foreach (var bad in (WalkStep[])
        [
            Step(width: 0), Step(width: double.NaN), Step(x: double.PositiveInfinity), Step(a: "o-1f5c1b8e-0000-4000-8000-000000000001"), Step(a: ""), Step(b: "nonsense"), Step(amount: 1.1), Step(amount: double.NaN),
            Step(azimuth: 10), Step(azimuth: 10, elevation: 0), Step(azimuth: double.NaN, elevation: 10), Step(caption: new string('a', 5001)),
        ]) Refused("walk-step", new WalkContent { Title = "A", Steps = [bad] });
        Refused("text-unreadable", new WalkContent { Title = "A", Steps = [Step(caption: "bell\u0007")] });
        var twice = Step();
        Refused("walk-step", new WalkContent { Title = "A", Steps = [twice, twice] });
        Refused("unknown-zone", new WalkContent { Title = "A", Steps = [twice with { Zones = [Guid.NewGuid()] }] });
        Assert.Empty(walks.Of(painting.Id));
    }
}
