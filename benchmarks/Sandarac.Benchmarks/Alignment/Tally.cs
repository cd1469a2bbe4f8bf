using MathNet.Numerics.Statistics;
using Sandarac.Benchmarks.Measuring;

namespace Sandarac.Benchmarks.Alignment;

/// <summary>A method's outcomes on one family of pairs.</summary>
internal sealed record Tally(string Method, IReadOnlyList<Outcome> Outcomes)
{
    /// <summary>Median over the pairs; infinite when half of them have no answer.</summary>
    public double MedianError => Outcomes.Select(o => o.Error).Median();

    /// <summary>Share of pairs whose median error does not stay below; a pair without an answer is among them.</summary>
    public double FailedAt(double pixels) => Outcomes.Count(o => !(o.Error < pixels)) / (double)Outcomes.Count;

    public int With(string verdict) => Outcomes.Count(o => o.Verdict == verdict);

    public override string ToString() => (
        $"{Method,-34}" + string.Concat(((double[])[3, 5, 10]).Select(px => $"{1 - FailedAt(px),8:0.00}"))
        + $"{Figure.Show(MedianError),12}{Outcomes.Select(o => o.Seconds).Median(),11:0.0}  {Verdicts}").TrimEnd();

    public static string Header => $"{"share of pairs below",-34}{"3 px",8}{"5 px",8}{"10 px",8}{"median, px",12}{"median, s",11}";

    private string Verdicts => Outcomes.All(o => o.Verdict.Length == 0) ? ""
        : $"{With(AlignAnswer.Aligned)} aligned, {With(AlignAnswer.Uncertain)} uncertain, {With(AlignAnswer.NotAligned)} not aligned";
}
