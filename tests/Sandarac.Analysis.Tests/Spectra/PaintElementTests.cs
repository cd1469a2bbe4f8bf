using Sandarac.Analysis.Spectra;

namespace Sandarac.Analysis.Tests.Spectra;

/// <summary>Elements of drawn spectra of paints, whose lines are those of Sherman's equation by xraylib (References/Spectra/SOURCE.md): what is in them is known.</summary>
public class PaintElementTests
{
    private static readonly EnergyScale Usual = new(0, 0.02), Finer = new(0.01, 0.015);

    public static TheoryData<string> Paints => [.. PaintSpectrum.All.Select(p => p.Paint)];

    [Theory]
    [MemberData(nameof(Paints))]
    public void Known_paints_show_their_elements_and_no_others(string name)
    {
        var paint = PaintSpectrum.Named(name);
        var score = Scored(paint, 11, 4e5, 140, Usual, 2048);
        Assert.Empty(score.Missed);
        Assert.Empty(score.WronglyCertain);
        Assert.True(score.Wrong.Count <= 1, string.Join(", ", score.Wrong));
    }

    public static TheoryData<string> FreshPaints => [.. PaintSpectrum.Fresh.Select(p => p.Paint)];

    /// <summary>Paints on lead white, chalk and bole under other tubes, by which nothing in the method was chosen.</summary>
    [Theory]
    [MemberData(nameof(FreshPaints))]
    public void Known_paints_on_grounds_show_their_elements_and_no_others(string name)
    {
        var paint = PaintSpectrum.Fresh.Single(p => p.Paint == name);
        var score = Scored(paint, 7, 6e5, 145, Finer, 3000);
        Assert.True(score.Missed.Count <= 1, string.Join(", ", score.Missed));
        Assert.Empty(score.Wrong);
    }

    /// <summary>Over all paints, three detectors and three times of measuring: figures for docs/spectra.md.</summary>
    [Fact]
    [Trait("Speed", "slow")]
    public void Known_recall_and_precision() => Measure(PaintSpectrum.All, [(1, 1e6, 150), (2, 2e5, 125), (3, 5e4, 180), (4, 1e6, 180), (5, 5e4, 125)], Usual, 2048);

    /// <summary>The same on paints, tubes, scale and times by which nothing in the method was chosen: figures for docs/spectra.md.</summary>
    [Fact]
    [Trait("Speed", "slow")]
    public void Known_recall_and_precision_on_grounds() => Measure(PaintSpectrum.Fresh, [(901, 3e5, 135), (902, 2e6, 155), (903, 8e4, 170), (904, 3e4, 130)], Finer, 3000);

    private static void Measure(IReadOnlyList<PaintSpectrum> paints, IReadOnlyList<(int Seed, double Total, double FwhmEv)> measured, EnergyScale scale, int channels)
    {
        var scores = measured.SelectMany(m => paints.Select(p => (p.Paint, m.Total, m.FwhmEv, Score: Scored(p, m.Seed, m.Total, m.FwhmEv, scale, channels)))).ToList();
        int Sum(Func<ElementScore, IReadOnlyList<string>> of) => scores.Sum(s => of(s.Score).Count);
        var (found, missed, wrong, certain) = (Sum(s => s.Found), Sum(s => s.Missed), Sum(s => s.Wrong), Sum(s => s.WronglyCertain));
        var text = $"of {found + missed} found {found}, statements wrong {wrong}, of them certain {certain}\n"
            + string.Join('\n', scores.Where(s => s.Score.Missed.Count + s.Score.Wrong.Count > 0).Select(s => $"{s.Paint} {s.Total} {s.FwhmEv}: missed {string.Join(' ', s.Score.Missed)}, wrong {string.Join(' ', s.Score.Wrong)}"));
        TestContext.Current.TestOutputHelper!.WriteLine(text);
        Assert.True(found >= 0.97 * (found + missed) && found >= 0.97 * (found + wrong) && certain == 0, text);
    }

    private static ElementScore Scored(PaintSpectrum paint, int seed, double total, double fwhmEv, EnergyScale scale, int channels) =>
        ElementScore.Of(paint, SpectrumAnalysis.Run(paint.Draw(seed, total, fwhmEv, scale, channels: channels), new SpectrumSettings { Anode = paint.Anode }), total, fwhmEv, scale, channels);
}
