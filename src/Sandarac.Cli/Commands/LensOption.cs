using System.CommandLine;

namespace Sandarac.Cli.Commands;

/// <summary><c>--lens FRAME.tif</c>, once for each frame.</summary>
internal static class LensOption
{
    public static Option<string[]> Create(string description) => new("--lens") { Description = description, HelpName = "FRAME.tif", DefaultValueFactory = _ => [] };
}
