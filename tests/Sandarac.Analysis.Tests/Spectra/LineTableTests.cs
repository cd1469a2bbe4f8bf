using System.Globalization;
using Sandarac.Analysis.Spectra.Lines;

namespace Sandarac.Analysis.Tests.Spectra;

public class LineTableTests
{
    /// <summary>References/Spectra/data-booklet.csv, from memory, printed to 0.01 keV: half a unit of the last figure, and another for a doublet's mean.</summary>
    [Fact]
    public void Known_energies_of_the_X_ray_Data_Booklet()
    {
        var rows = File.ReadLines(Path.Combine(AppContext.BaseDirectory, "References", "Spectra", "data-booklet.csv")).Skip(1).Where(r => r.Length > 0).Select(r => r.Split(',')).ToList();
        Assert.Equal(28, rows.Count);
        // The booklet prints the stronger line of a doublet.
        Assert.All(rows, r => Assert.InRange(XrayLine.Energy($"{r[0]} {r[1]}1")!.Value - double.Parse(r[2], CultureInfo.InvariantCulture), -0.0101, 0.0101));
    }

    [Fact]
    public void A_line_by_the_name_that_people_use()
    {
        Assert.Equal(6.3995, XrayLine.Energy("Fe Ka")!.Value, 3);
        Assert.Equal(12.6144, XrayLine.Energy("Pb Lb")!.Value, 3);
        Assert.Null(XrayLine.Energy("Fe"));
        Assert.Null(XrayLine.Energy("Xx Ka"));
    }

    /// <summary>Every element from sodium to uranium has a line, those of one group lie below their edge, the strongest of a shell is 1.</summary>
    [Fact]
    public void Every_element_has_lines_in_proportion()
    {
        Assert.Equal(Enumerable.Range(11, 82), XrayLine.All.Select(l => l.Z).Distinct());
        Assert.All(XrayLine.All.Where(l => l.Shell != 'M'), l => Assert.True(l.Kev < l.EdgeKev && l.Relative is > 0 and <= 1, $"{l}"));
        Assert.All(XrayLine.All.GroupBy(l => (l.Z, l.Shell)), shell => Assert.Equal(1, shell.Max(l => l.Relative)));
    }
}
