using System.Diagnostics;

namespace Sandarac.Cli.Tests;

/// <summary>Runs the real program as a process of its own.</summary>
internal static class CommandLine
{
    public static (int Code, string Out, string Error) Run(params string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "sandarac.dll"), .. arguments]) { RedirectStandardOutput = true, RedirectStandardError = true };
        using var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, output, error.Result);
    }
}
