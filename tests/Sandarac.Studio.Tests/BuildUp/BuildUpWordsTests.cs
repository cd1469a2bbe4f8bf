using Sandarac.Studio.BuildUp;

namespace Sandarac.Studio.Tests.BuildUp;

public sealed class BuildUpWordsTests
{
    private readonly BuildUpStage _support = Stage("oak panel", StageKind.Support), _ground = Stage("ground", StageKind.Ground), _priming = Stage("toned priming", StageKind.Priming), _sky = Stage("sky", StageKind.Paint),
        _boat = Stage("boat", StageKind.Paint), _varnish = Stage("varnish", StageKind.Varnish), _retouching = Stage("retouching", StageKind.Intervention), _signature = Stage("signature", StageKind.Paint);

    private IReadOnlyList<BuildUpStage> All => [_support, _ground, _priming, _sky, _boat, _varnish, _retouching, _signature];

    private BuildUpOrder Order(params BuildUpRelation[] more) => BuildUpOrder.Of(All, [Over(_ground, _support), Over(_priming, _ground), Over(_sky, _priming), Over(_boat, _priming), Over(_varnish, _sky), Over(_varnish, _boat), Over(_retouching, _varnish), .. more]);

    private static BuildUpStage Stage(string name, StageKind kind) => new(Guid.CreateVersion7(), name, kind);

    private static BuildUpRelation Over(BuildUpStage upper, BuildUpStage lower, string evidence = "seen") => new(Guid.NewGuid(), upper.Id, RelationKind.Over, lower.Id, evidence);

    private static Dating DatingOf(BuildUpOrder order, BuildUpStage stage) => Dating.Of(order, order.Groups.Single(g => g.Stages.Contains(stage)));

    [Fact]
    public void A_stage_under_every_varnish_and_intervention_is_original() => Assert.Equal(new Dating(Age.Original, "It lies under varnish and retouching, and no varnish, dirt or intervention lies under it."), DatingOf(Order(), _sky));

    [Fact]
    public void A_stage_over_a_varnish_is_later() => Assert.Equal(new Dating(Age.Later, "It lies over varnish."), DatingOf(Order(Over(_signature, _varnish)), _signature));

    [Fact]
    public void A_stage_that_nothing_orders_is_undetermined()
    {
        var dating = DatingOf(Order(Over(_signature, _sky)), _signature);
        Assert.Equal(Age.Undetermined, dating.Age);
        Assert.Equal("Nothing tells whether it lies over or under varnish and retouching.", dating.Reason);
    }

    [Fact]
    public void A_stage_whose_place_contradicts_itself_is_not_dated() => Assert.Equal(Age.Undetermined, DatingOf(Order(Over(_sky, _varnish)), _sky).Age);

    [Fact]
    public void Prose_goes_from_the_support_up_with_samples_and_thickness()
    {
        LayerSeen[] layers = [new(_ground.Id, "1", 110, 140), new(_ground.Id, "2", 90, 120), new(_priming.Id, "1", 8, 12), new(_priming.Id, "2", 9.5, 20), new(_sky.Id, "2", null, null)];
        Assert.Equal(
        [
            "At the bottom, oak panel.", "With nothing known under it, signature.", "Over oak panel, in all samples, ground, 90 to 140 um.", "Over ground, in all samples, toned priming, 8 to 20 um.",
            "Over toned priming: in sample 2, sky; boat.", "None of these is known to lie over another.", "Over sky and boat, varnish.", "Over varnish, retouching.",
        ], BuildUpProse.Of(Order(), layers, ["1", "2"]));
    }

    [Fact]
    public void A_contradiction_is_told_as_its_chain()
    {
        var order = Order(Over(_boat, _sky, "zone bow"), Over(_sky, _boat, "sample 2, layer 4 over layer 3"));
        Assert.Contains("Over toned priming, sky and boat, whose order contradicts itself.", BuildUpProse.Of(order, [], []));
        Assert.Contains("What is known contradicts itself: boat lies over sky (zone bow); sky lies over boat (sample 2, layer 4 over layer 3).", BuildUpProse.Of(order, [], []));
    }

    [Fact]
    public void What_would_settle_an_open_pair_is_where_both_occur()
    {
        var open = Settling.Of(Order(Over(_signature, _sky)), [new(_signature.Id, "the zone corner"), new(_varnish.Id, "the zone corner"), new(_boat.Id, "sample 3")]);
        Assert.Equal(["the zone corner"], open[0].Places);
        Assert.Equal(["signature", "varnish"], new[] { open[0].First.Name, open[0].Second.Name }.Order());
        Assert.Contains(open, p => p.Places.Count == 0 && p.First.Name is "boat" or "sky" && p.Second.Name is "boat" or "sky");
    }
}
