using MathNet.Numerics.LinearAlgebra;
using Sandarac.Analysis.Spectra.Fitting;
using Sandarac.Analysis.Spectra.Lines;

namespace Sandarac.Analysis.Spectra.Calibration;

/// <summary>An energy scale that is tried.</summary>
/// <param name="Scale">The scale of the spectrum's own channels.</param>
/// <param name="FwhmEv">The detector's full width at half maximum at manganese Ka, eV.</param>
internal sealed record TriedScale(EnergyScale Scale, double FwhmEv);

/// <summary>How well a scale explains a spectrum.</summary>
/// <param name="Tried">The scale.</param>
/// <param name="Model">The columns.</param>
/// <param name="Fit">Their amounts.</param>
/// <param name="Squares">Sum of weighted squares of what they leave from the least energy on, and of how far they part from what ties them.</param>
/// <param name="Bins">Bins from there on that have counts.</param>
internal sealed record ScaleFit(TriedScale Tried, LineModel Model, NonNegative Fit, double Squares, int Bins)
{
    /// <summary>Elements with an amount.</summary>
    public int Elements => Fit.Positive.Select(p => Model.Components[p]).Where(c => c.IsElement).Select(c => c.Owner).Distinct().Count();

    /// <summary>An amount for a column of another model: that of its group, else of its shell.</summary>
    public double Amount(Component other)
    {
        var same = Enumerable.Range(0, Model.Components.Count).Where(i => Model.Components[i].Owner == other.Owner && Model.Components[i].Part[0] == other.Part[0]).ToList();
        return same.Where(i => Model.Components[i].Part == other.Part).Concat(same).Select(i => Fit.Amounts[i]).FirstOrDefault();
    }
}

/// <summary>A spectrum without its background in bins of a fifth of a line's width: enough to see how well a scale explains it, hundreds of times.</summary>
internal sealed class CoarseSpectrum
{
    private const double BinsPerWidth = 5;

    /// <summary>How well shapes and background are known, as a share of the counts, one standard deviation. Ours, no source.</summary>
    private const double Doubt = 0.02;

    /// <summary>Steps in which slopes are taken, keV at channel 0 and at the last, eV of width; most of them in one move.</summary>
    private const double OffsetStep = 0.002, EndStep = 0.004, WidthStep = 2, MostSteps = 15;

    private readonly double[] _net, _variance;
    private readonly int _bin, _last;
    private readonly SpectrumSettings _settings;
    private readonly double? _limitKev;

    /// <summary>Bins a spectrum.</summary>
    /// <param name="counts">Counts.</param>
    /// <param name="background">Background of each channel.</param>
    /// <param name="sigma">Standard deviation of a line, channels.</param>
    /// <param name="settings">The anode or the beam, when they are known.</param>
    /// <param name="limitKev">The greatest energy that excites; null when unknown.</param>
    public CoarseSpectrum(double[] counts, double[] background, double sigma, SpectrumSettings settings, double? limitKev)
    {
        (_settings, _limitKev, _bin) = (settings, limitKev, Math.Max(1, (int)(Resolution.FwhmPerSigma * sigma / BinsPerWidth)));
        double[] Binned(double[] values) => [.. values.Chunk(_bin).Where(b => b.Length == _bin).Select(b => b.Sum())];
        var (all, ground) = (Binned(counts), Binned(background));
        _net = [.. all.Zip(ground, (a, g) => a - g)];
        _variance = [.. all.Select(n => Math.Max(1, n) + Math.Pow(Doubt * n, 2))];
        _last = Array.FindLastIndex(all, n => n >= 4);
    }

    /// <summary>All usual elements, the tube's lines, piled-up pulses and tails under a scale.</summary>
    /// <param name="tried">The scale.</param>
    /// <param name="before">A fit near by, by whose amounts groups of lines are tied; null for whole shells, which are quicker.</param>
    public ScaleFit Fit(TriedScale tried, ScaleFit? before)
    {
        var axis = Axis(tried);
        double[] above = [.. _net.Select(n => Math.Max(0, n))];
        var elements = UsualElements.Usual.Where(e => e != _settings.Anode).SelectMany(e => before is null ? LineShapes.Shells(e, axis) : LineShapes.Groups(e, axis));
        Component[] components = [LineShapes.PiledUp(above, axis), .. LineShapes.Tails(above, new double[above.Length], axis), .. LineShapes.Scattered(_settings.Anode, _settings.BeamKev, axis), .. elements];
        var model = LineModel.Weighted(components, _net, axis, _variance, before is null ? null : [.. components.Select(before.Amount)]);
        var (fit, first) = (model.Solve([.. Enumerable.Range(0, components.Length)]), axis.Fitted.From);
        return new ScaleFit(tried, model, fit, Enumerable.Range(first, _net.Length - first).Sum(b => _net[b] * _net[b] / _variance[b]) + fit.Value, Math.Max(1, _last - first));
    }

    /// <summary>One step of Gauss and Newton for offset, step and width, the amounts held.</summary>
    public TriedScale Nearer(ScaleFit fit)
    {
        var ((scale, fwhm), channels, (from, to)) = ((fit.Tried.Scale, fit.Tried.FwhmEv), (double)_net.Length * _bin, fit.Model.Axis.Fitted);
        TriedScale Moved(double offset, double end, double width) => new(new(scale.OffsetKev + OffsetStep * offset, scale.KevPerChannel + EndStep / channels * end), Math.Clamp(fwhm + WidthStep * width, ScaleSearch.LeastFwhm, ScaleSearch.MostFwhm));
        var now = Sum(fit, fit.Tried);
        double[][] slopes = [.. new[] { Moved(1, 0, 0), Moved(0, 1, 0), new(scale, fwhm + WidthStep) }.Select(m => Sum(fit, m).Zip(now, (a, b) => a - b).ToArray())];
        double Product(double[] a, Func<int, double> b) => Enumerable.Range(from, to - from + 1).Sum(i => a[i] * b(i) / _variance[i]);
        var normal = Matrix<double>.Build.Dense(3, 3, (i, j) => Product(slopes[i], b => slopes[j][b]) + (i == j ? 1e-6 : 0));
        var change = normal.Solve(Vector<double>.Build.Dense(3, i => Product(slopes[i], b => _net[b] - now[b]))).Map(c => Math.Clamp(c, -MostSteps, MostSteps));
        return Moved(change[0], change[1], change[2]);
    }

    /// <summary>The same amounts of the lines under another scale.</summary>
    private double[] Sum(ScaleFit fit, TriedScale tried)
    {
        var (axis, sum) = (Axis(tried), new double[_net.Length]);
        foreach (var p in fit.Fit.Positive)
        {
            var c = fit.Model.Components[p] is { Lines.Count: > 0 } lines ? LineShapes.Again(lines, axis) : fit.Model.Components[p];
            Rows.Add(sum.AsSpan(c.From, c.Shape.Length), fit.Fit.Amounts[p], c.Shape);
        }
        return sum;
    }

    private ChannelAxis Axis(TriedScale tried)
    {
        var scale = new EnergyScale(tried.Scale.At((_bin - 1) / 2.0), tried.Scale.KevPerChannel * _bin);
        // A bin is a mean over its width, which widens a line by a twelfth of its square.
        var (resolution, end) = (Resolution.OfStated(tried.FwhmEv), scale.At(_net.Length - 1));
        var noise = Math.Sqrt(Math.Pow(resolution.NoiseEv, 2) + Math.Pow(1000 * Resolution.FwhmPerSigma * scale.KevPerChannel, 2) / 12);
        var limit = Math.Max(_limitKev ?? (_last < _net.Length - 2 * BinsPerWidth ? scale.At(_last) : SpectrumAnalysis.BeyondEnd * end), SpectrumAnalysis.LeastKev + 1);
        return new ChannelAxis(_net.Length, scale, resolution with { NoiseEv = noise }, SpectrumAnalysis.LeastKev, Math.Min(end, limit + 0.5), limit);
    }
}
