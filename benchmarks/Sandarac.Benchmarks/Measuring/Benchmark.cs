namespace Sandarac.Benchmarks.Measuring;

/// <summary>How to measure.</summary>
/// <param name="Quick">Small inputs and few rounds.</param>
/// <param name="Folder">A folder for the benchmark's files; it is deleted afterwards.</param>
/// <param name="Keep">A folder for tables that outlive the run; null when nobody asked for them.</param>
/// <param name="Seeds">How many specimens; null for the benchmark's own number.</param>
/// <param name="PixelsPerInch">At what resolution they are drawn; null for the benchmark's own.</param>
internal sealed record Settings(bool Quick, string Folder, string? Keep, int? Seeds = null, double? PixelsPerInch = null);

/// <summary>A group of figures that are measured together.</summary>
internal abstract class Benchmark
{
    /// <summary>What <c>--only</c> takes.</summary>
    public abstract string Name { get; }

    /// <summary>Whether it is called so, by its own name or by the part before a hyphen.</summary>
    public bool IsMeant(string name) => Name == name || Name.StartsWith(name + "-", StringComparison.Ordinal);

    /// <summary>One line: what is measured, and beside what.</summary>
    public abstract string Summary { get; }

    /// <summary>The options beyond those of all that it takes: <c>--seeds</c>, <c>--ppi</c>.</summary>
    public virtual IReadOnlyList<string> Takes => [];

    /// <summary>Measures; each figure is given as soon as it is there.</summary>
    public abstract IEnumerable<Figure> Run(Settings settings);

    /// <summary>Tells the person at the screen what is being done.</summary>
    protected static void Say(string text) => Console.WriteLine("  " + text);
}
