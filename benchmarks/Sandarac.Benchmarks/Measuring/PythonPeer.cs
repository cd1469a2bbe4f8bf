namespace Sandarac.Benchmarks.Measuring;

/// <summary>Peers that are scripts for Debian's Python.</summary>
internal static class PythonPeer
{
    private const string Python = "/usr/bin/python3";

    /// <summary>The words that a script of <c>peers/</c> prints; none when Python, or what the script needs of it, is not there.</summary>
    public static string[] Words(string script, params IEnumerable<string> arguments)
    {
        if (!File.Exists(Python)) return [];
        try
        {
            return Child.Run(Child.Of(Python, [Path.Combine(AppContext.BaseDirectory, "peers", script), .. arguments])).Output.Split();
        }
        catch (InvalidOperationException)
        {
            return [];
        }
    }
}
