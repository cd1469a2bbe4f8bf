using Sandarac.Analysis.Brushwork;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Changes;

/// <summary>Whether two matched photographs show the same detail, cell by cell: the correlation of what stands out of the local mean. Calm cells, where noise outweighs detail, tell nothing.</summary>
internal sealed class PairAgreement
{
    private const int Cell = 64;
    private const double Local = 4, LeastCorrelation = 0.5, LeastDetail = 4;

    private readonly bool[] _doubtful;
    private readonly int _width, _across;

    private PairAgreement(int width, int across, bool[] doubtful, int telling, int agreeing) => (_width, _across, _doubtful, Telling, Agreeing) = (width, across, doubtful, telling, agreeing);

    /// <summary>Cells with detail.</summary>
    public int Telling { get; }

    /// <summary>Those in which the photographs agree.</summary>
    public int Agreeing { get; }

    /// <summary>Whether a pixel's cell has detail and the photographs do not agree about it.</summary>
    public bool IsDoubtful(int pixel) => _doubtful[pixel / _width / Cell * _across + pixel % _width / Cell];

    /// <summary>Compares.</summary>
    public static PairAgreement Of(Plane[] baseline, Plane[] later, DifferenceNoise noise, ParallelOptions threads)
    {
        var (first, second) = (Detail(baseline, threads), Detail(later, threads));
        var (across, down, telling, agreeing) = ((first.Width + Cell - 1) / Cell, (first.Height + Cell - 1) / Cell, 0, 0);
        var doubtful = new bool[across * down];
        for (var c = 0; c < doubtful.Length; c++)
        {
            double pp = 0, qq = 0, pq = 0, expected = 0;
            for (var y = c / across * Cell; y < Math.Min((c / across + 1) * Cell, first.Height); y++)
                for (var x = c % across * Cell; x < Math.Min((c % across + 1) * Cell, first.Width); x++)
                {
                    var i = y * first.Width + x;
                    if (!float.IsFinite(first.Data[i] + second.Data[i])) continue;
                    (pp, qq, pq) = (pp + first.Data[i] * first.Data[i], qq + second.Data[i] * second.Data[i], pq + first.Data[i] * second.Data[i]);
                    for (var b = 0; b < baseline.Length; b++) expected += noise.Variance(b, i);
                }
            if (pp < LeastDetail * expected || pp == 0 || qq == 0) continue;
            telling++;
            doubtful[c] = pq / Math.Sqrt(pp * qq) < LeastCorrelation;
            if (!doubtful[c]) agreeing++;
        }
        return new PairAgreement(first.Width, across, doubtful, telling, agreeing);
    }

    /// <summary>All bands together, without the local mean.</summary>
    private static Plane Detail(Plane[] bands, ParallelOptions threads)
    {
        var (means, sum) = (GaussianMean.Of(bands, Local, threads), new Plane(bands[0].Width, bands[0].Height));
        for (var b = 0; b < bands.Length; b++)
            for (var i = 0; i < sum.Data.Length; i++) sum.Data[i] += bands[b].Data[i] - means[b].Data[i];
        return sum;
    }
}
