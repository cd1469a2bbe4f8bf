using System.Globalization;
using System.Text;
using MathNet.Numerics.Distributions;
using Sandarac.Analysis.Spectra;
using Sandarac.Analysis.Spectra.Lines;

namespace Sandarac.Cli.Demo;

/// <summary>
/// A spectrum as a portable instrument might give it of modern white paint over lead white: lines of the table in the table's ratios, on a continuum, in a silicon detector's width, with Poisson's noise. Counts of each
/// shell are chosen, not computed for a paint.
/// </summary>
internal static class DrawnSpectrum
{
    /// <summary>The tube's anode.</summary>
    public const string Anode = "Rh";

    private const int Channels = 2048, Seed = 414118;

    private const double KevPerChannel = 0.02, TubeKv = 40, FwhmEv = 150, Continuum = 220;

    /// <summary>Counts under the strongest line of a shell.</summary>
    private static readonly (string Element, char Shell, double Counts)[] Shells =
        [("Ca", 'K', 9_000), ("Ti", 'K', 90_000), ("Fe", 'K', 8_000), ("Zn", 'K', 14_000), ("Pb", 'L', 60_000), ("Pb", 'M', 9_000), (Anode, 'K', 9_000)];

    /// <summary>The file, EMSA/MAS (ISO 22029).</summary>
    public static byte[] Emsa(string title)
    {
        var random = new Random(Seed);
        var text = new StringBuilder(string.Create(CultureInfo.InvariantCulture, $"""
            #FORMAT      : EMSA/MAS Spectral Data File
            #VERSION     : 1.0
            #TITLE       : {title}
            #DATE        : 19-MAR-2024
            #TIME        : 10:15
            #OWNER       : {Story.Laboratory}
            #NPOINTS     : {Channels}
            #NCOLUMNS    : 1
            #XUNITS      : keV
            #YUNITS      : counts
            #DATATYPE    : Y
            #XPERCHAN    : {KevPerChannel}
            #OFFSET      : 0
            #SIGNALTYPE  : XRF
            #BEAMKV   -kV: {TubeKv}
            #LIVETIME  -s: 100
            #SPECTRUM    : Spectral Data Starts Here

            """));
        foreach (var mean in Expected()) text.Append(CultureInfo.InvariantCulture, $"{(mean > 0 ? Poisson.Sample(random, mean) : 0)},\n");
        return Encoding.ASCII.GetBytes(text.Append("#ENDOFDATA   :\n").ToString());
    }

    /// <summary>Mean counts of each channel.</summary>
    private static double[] Expected()
    {
        var sum = new double[Channels];
        // Kramers' shape of the tube's own radiation, scattered; the air and the window take what is below 2 keV.
        for (var c = 1; c < Channels; c++) sum[c] = Continuum * Math.Max(0, TubeKv / (c * KevPerChannel) - 1) * (1 - Math.Exp(-Math.Pow(c * KevPerChannel / 4, 3)));
        foreach (var (element, shell, counts) in Shells)
            foreach (var line in XrayLine.Of(element).Where(l => l.Shell == shell)) Add(sum, line.Kev, counts * line.Relative);
        return sum;
    }

    private static void Add(double[] sum, double kev, double counts)
    {
        var sigma = Resolution.OfStated(FwhmEv).SigmaKev(kev);
        var reach = (int)Math.Ceiling(5 * sigma / KevPerChannel);
        var middle = (int)Math.Round(kev / KevPerChannel);
        for (var c = Math.Max(0, middle - reach); c <= Math.Min(Channels - 1, middle + reach); c++)
            sum[c] += counts * KevPerChannel / (sigma * Math.Sqrt(2 * Math.PI)) * Math.Exp(-Math.Pow((c * KevPerChannel - kev) / sigma, 2) / 2);
    }
}
