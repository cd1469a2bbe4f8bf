using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using Sandarac.Benchmarks.Measuring;

namespace Sandarac.Benchmarks.Tiles;

/// <summary>
/// The peer: Debian's nginx sending one file of a tile's size with sendfile, again and again. It looks nothing up and copies nothing, so it
/// shows what the loopback and the clients take by themselves.
/// </summary>
internal sealed class PlainFileServer : IDisposable
{
    private const string Nginx = "/usr/sbin/nginx";

    /// <summary>Bytes of a tile of three 16-bit bands.</summary>
    private const int TileBytes = 512 * 512 * 3 * 2;

    private readonly Process _process;

    private PlainFileServer(Process process, HttpClient client) => (_process, Client) = (process, client);

    public HttpClient Client { get; }

    public static string Name { get; } = File.Exists(Nginx)
        ? "peer: Debian's nginx sending one file of 1.5 MB" : "peer not present: apt-get install nginx-light";

    /// <summary>Starts it in a folder of its own; null where it is not installed.</summary>
    public static async Task<PlainFileServer?> Start(string folder)
    {
        if (!File.Exists(Nginx)) return null;
        Directory.CreateDirectory(folder);
        var bytes = new byte[TileBytes];
        new Random(1).NextBytes(bytes);
        await File.WriteAllBytesAsync(Path.Combine(folder, "tile"), bytes);
        var port = FreePort();
        var configuration = Path.Combine(folder, "nginx.conf");
        await File.WriteAllTextAsync(configuration, $$"""
            {{(Environment.UserName == "root" ? "user root;" : "")}}
            daemon off; worker_processes {{Environment.ProcessorCount}}; pid {{folder}}/pid; error_log {{folder}}/errors;
            events { worker_connections 256; }
            http {
              access_log off; sendfile on; tcp_nopush on; keepalive_requests 1000000; root {{folder}};
              client_body_temp_path {{folder}}/body; proxy_temp_path {{folder}}/proxy; fastcgi_temp_path {{folder}}/fastcgi;
              uwsgi_temp_path {{folder}}/uwsgi; scgi_temp_path {{folder}}/scgi;
              server { listen 127.0.0.1:{{port}}; }
            }
            """);
        var process = Process.Start(Child.Of(Nginx, "-p", folder, "-c", configuration, "-e", Path.Combine(folder, "errors")))!;
        var client = new HttpClient(new SocketsHttpHandler { UseProxy = false }) { BaseAddress = new Uri($"http://127.0.0.1:{port}") };
        var server = new PlainFileServer(process, client);
        for (var i = 0; i < 50 && !process.HasExited; i++)
        {
            try
            {
                await client.GetByteArrayAsync("/tile");
                return server;
            }
            catch (HttpRequestException)
            {
                await Task.Delay(100);
            }
        }
        var errors = process.HasExited ? await process.StandardError.ReadToEndAsync() : "it does not answer";
        server.Dispose();
        throw new InvalidOperationException($"{Nginx} did not start: {errors}");
    }

    public void Dispose()
    {
        Client.Dispose();
        // Its workers end with it only when it is asked to end, not when it is killed.
        if (!_process.HasExited) using (var stop = Process.Start("kill", ["-TERM", $"{_process.Id}"])) stop.WaitForExit();
        _process.WaitForExit();
        _process.Dispose();
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
