using Sandarac.Imaging;
using Sandarac.Materials.Tables;

namespace Sandarac.Materials.Solvents;

/// <summary>The table of solvents that comes with the program. SOURCE.md beside it says where its columns are from.</summary>
public static class SolventTable
{
    /// <summary>All solvents, in the order of the table.</summary>
    public static IReadOnlyList<Solvent> All { get; } = [.. Table.Rows("solvents.csv").Select(Read)];

    /// <summary>The solvent that is called so; null when none is.</summary>
    /// <param name="name">Its name, an alias or its CAS number, whatever the case.</param>
    public static Solvent? Find(string name) => All.FirstOrDefault(s => s.IsCalled(name.Trim()));

    /// <summary>The solvent that is called so.</summary>
    /// <param name="name">Its name, an alias or its CAS number, whatever the case.</param>
    /// <exception cref="InputProblem">None is; the remedy names those that are nearly called so.</exception>
    public static Solvent Get(string name)
    {
        if (Find(name) is { } found) return found;
        string[] near = name.Trim().Length == 0 ? [] : [.. All.Where(s => s.Aliases.Append(s.Name).Any(a => a.Contains(name.Trim(), StringComparison.OrdinalIgnoreCase))).Select(s => s.Name)];
        throw new InputProblem("unknown-solvent", name, $"No solvent of the table is called \"{name}\".",
            near.Length > 0 ? $"Perhaps {string.Join(" or ", near)} is meant." : "`sandarac solvent` lists the names; a CAS number is understood too.");
    }

    private static Solvent Read(string[] f) => new(
        f[0], f[1].Split(';', StringSplitOptions.RemoveEmptyEntries), f[2], Number(f[4]), Optional(f[5], f[6], Interval.Number),
        f[7].Length == 0 ? null : new(new(Interval.Number(f[7]), Interval.Number(f[8]), Interval.Number(f[9])), f[10]), f[11],
        f[12].Length == 0 ? null : new(TeasFractions.Of(Interval.Number(f[12]), Interval.Number(f[13]), Interval.Number(f[14])), f[15]),
        Optional(f[16], f[17], Interval.Parse), Optional(f[18], f[19], Interval.Parse), Optional(f[20], f[21], Interval.Parse), Optional(f[22], f[23], Interval.Parse), Optional(f[24], f[25], Interval.Parse),
        f[26].Length + f[27].Length + f[28].Length == 0 ? null : new(Number(f[26]), Number(f[27]), Number(f[28]), f[29].Length > 0),
        f[30], f[31], f[32].Split(' ', StringSplitOptions.RemoveEmptyEntries), f[33], f[34]);

    private static Sourced<T>? Optional<T>(string text, string source, Func<string, T> read) => text.Length == 0 ? null : new(read(text), source);

    private static double? Number(string text) => text.Length == 0 ? null : Interval.Number(text);
}
