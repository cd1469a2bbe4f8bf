using System.Globalization;
using System.Reflection;

namespace Sandarac.Analysis.Spectra.Lines;

/// <summary>A characteristic X-ray line. All of it is computed (CALC) by xraylib; see SOURCE.md beside the table.</summary>
/// <param name="Z">Atomic number.</param>
/// <param name="Element">Symbol.</param>
/// <param name="Group">Ka, Kb, L3, L2, L1 or M: lines of one group keep their ratios, whatever excites them.</param>
/// <param name="Name">Siegbahn's name: Ka1, Lb1.</param>
/// <param name="Kev">Energy, keV.</param>
/// <param name="Relative">Strength where it leaves the atom, the strongest line of the shell (K, L, M) being 1, excited at one and a half times the shell's highest edge.</param>
/// <param name="EdgeKev">The edge above which it is excited, keV.</param>
/// <param name="Escape">Share of its counts that a silicon detector shows 1.74 keV lower.</param>
/// <param name="Absorbed">Share of it that 0.45 mm of silicon absorbs.</param>
public sealed record XrayLine(int Z, string Element, string Group, string Name, double Kev, double Relative, double EdgeKev, double Escape, double Absorbed)
{
    /// <summary>All lines of the table: elements 11 (Na) to 92 (U), 0.9 to 100 keV.</summary>
    public static IReadOnlyList<XrayLine> All { get; } = [.. Read()];

    private static readonly ILookup<string, XrayLine> ByElement = All.ToLookup(l => l.Element);

    /// <summary>K, L or M.</summary>
    public char Shell => Group[0];

    /// <summary>Lines of an element; none for one that is not in the table.</summary>
    public static IEnumerable<XrayLine> Of(string element) => ByElement[element];

    /// <summary>Energy of a line as people name it: "Fe Ka", "Pb Lb", "Ba La1": the mean, by strength, of the lines whose name begins so. Null when there is none.</summary>
    public static double? Energy(string name)
    {
        var lines = name.Split(' ', StringSplitOptions.RemoveEmptyEntries) is [var element, var line] ? Of(element).Where(l => Named(l, line)).ToList() : [];
        return lines.Count == 0 ? null : lines.Sum(l => l.Kev * l.Relative) / lines.Sum(l => l.Relative);
    }

    /// <summary>Lb alone is Lb1, the strongest of many that lie apart; Ka and La are doublets that stay together.</summary>
    private static bool Named(XrayLine line, string name) => name is "Lb" or "Lg" or "Kb" ? line.Name == $"{name}1" : line.Name.StartsWith(name, StringComparison.Ordinal);

    private static IEnumerable<XrayLine> Read()
    {
        using var stream = Assembly.GetExecutingAssembly().GetManifestResourceStream("xray-lines.csv")!;
        using var reader = new StreamReader(stream);
        reader.ReadLine();
        while (reader.ReadLine() is { } row)
        {
            var f = row.Split(',');
            double At(int i) => double.Parse(f[i], CultureInfo.InvariantCulture);
            yield return new XrayLine((int)At(0), f[1], f[2], f[3], At(4), At(5), At(6), At(7), At(8));
        }
    }
}
