using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using Npgsql;

[assembly: AssemblyFixture(typeof(Sandarac.Studio.Tests.Support.PostgresServer))]

namespace Sandarac.Studio.Tests.Support;

/// <summary>Debian's PostgreSQL 15 in a temporary folder, on loopback, as an ordinary user; started when the first test asks for it.</summary>
public sealed class PostgresServer : IDisposable
{
    private const string Binaries = "/usr/lib/postgresql/15/bin";
    private readonly Lazy<string> _connection;
    private string? _folder;

    public PostgresServer() => _connection = new Lazy<string>(Start);

    /// <summary>Connection string of a new, empty database.</summary>
    public string NewDatabase()
    {
        if (!File.Exists($"{Binaries}/initdb")) Assert.Skip($"PostgreSQL 15 is not installed ({Binaries}).");
        var name = $"studio_{Guid.NewGuid():N}";
        using var connection = new NpgsqlConnection(_connection.Value);
        connection.Open();
        using var command = new NpgsqlCommand($"CREATE DATABASE {name}", connection);
        command.ExecuteNonQuery();
        return new NpgsqlConnectionStringBuilder(_connection.Value) { Database = name }.ConnectionString;
    }

    public void Dispose()
    {
        if (_folder is null) return;
        NpgsqlConnection.ClearAllPools();
        Run("pg_ctl", "-D", $"{_folder}/data", "-m", "immediate", "-w", "stop");
        Directory.Delete(_folder, recursive: true);
    }

    private string Start()
    {
        _folder = Directory.CreateTempSubdirectory("studio-postgres-").FullName;
        if (Environment.UserName == "root") Execute("chown", "nobody", _folder);
        var port = FreePort();
        Run("initdb", "-D", $"{_folder}/data", "-U", "studio", "-A", "trust", "-E", "UTF8", "--locale", "C", "--no-sync");
        Run("pg_ctl", "-D", $"{_folder}/data", "-l", $"{_folder}/log", "-w", "-o", $"-p {port} -c listen_addresses=127.0.0.1 -c unix_socket_directories={_folder} -c fsync=off", "start");
        return $"Host=127.0.0.1;Port={port};Username=studio;Database=postgres;Include Error Detail=true";
    }

    /// <summary>PostgreSQL refuses to run as root.</summary>
    private static void Run(string program, params string[] arguments)
    {
        if (Environment.UserName == "root") Execute("runuser", ["-u", "nobody", "--", $"{Binaries}/{program}", .. arguments]);
        else Execute($"{Binaries}/{program}", arguments);
    }

    private static void Execute(string program, params string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments) { WorkingDirectory = "/", RedirectStandardError = true };
        // pg_ctl's server inherits the output: read errors only, and let the rest go nowhere.
        start.RedirectStandardOutput = program != "runuser" || !arguments.Contains("start");
        using var process = Process.Start(start)!;
        if (start.RedirectStandardOutput) process.OutputDataReceived += (_, _) => { };
        if (start.RedirectStandardOutput) process.BeginOutputReadLine();
        process.WaitForExit(TimeSpan.FromSeconds(60));
        if (process.ExitCode != 0) throw new InvalidOperationException($"{program} {string.Join(' ', arguments)}: {process.StandardError.ReadToEnd()}");
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
