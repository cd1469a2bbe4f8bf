using System.CommandLine;
using System.Diagnostics;
using Microsoft.Extensions.Hosting;
using Sandarac.Cli.Output;
using Sandarac.Server;
using Sandarac.Studio;

namespace Sandarac.Cli.Commands;

internal static class OpenCommand
{
    public const int DefaultPort = 5180;

    public static Option<int> PortOption() => new("--port") { Description = "Port on this machine; 0 for any free one.", DefaultValueFactory = _ => DefaultPort };

    public static Option<bool> NoBrowserOption() => new("--no-browser") { Description = "Print the address only." };

    public static Command Create()
    {
        var (port, noBrowser, studio) = (PortOption(), NoBrowserOption(), new StudioOption());
        var command = new Command("open", "Open a studio in the browser, on this machine only.") { port, noBrowser };
        studio.AddTo(command);
        command.SetAction(async (parsed, cancellation) =>
        {
            using var opened = studio.Open(parsed);
            return await Serve(opened, parsed.GetValue(port), "/", !parsed.GetValue(noBrowser), cancellation);
        });
        return command;
    }

    /// <summary>Serves until cancelled. The address is printed on standard output once pages can be had.</summary>
    public static async Task<int> Serve(OpenStudio studio, int port, string page, bool openBrowser, CancellationToken cancellation)
    {
        await using var app = SandaracServer.Build(new ServerOptions { Studio = studio, Port = port });
        await app.StartAsync(cancellation);
        var address = new Uri(SandaracServer.AddressOf(app), page);
        Console.WriteLine(address);
        Say.Line("Ctrl+C stops it.");
        if (openBrowser) TryBrowser(address);
        await app.WaitForShutdownAsync(cancellation);
        return 0;
    }

    private static void TryBrowser(Uri address)
    {
        if (OperatingSystem.IsLinux() && Environment.GetEnvironmentVariable("DISPLAY") is null && Environment.GetEnvironmentVariable("WAYLAND_DISPLAY") is null) return;
        try
        {
            Process.Start(new ProcessStartInfo(address.ToString()) { UseShellExecute = true })?.Dispose();
        }
        catch (System.ComponentModel.Win32Exception)
        {
            Say.Line("No browser could be started; open the address above.");
        }
    }
}
