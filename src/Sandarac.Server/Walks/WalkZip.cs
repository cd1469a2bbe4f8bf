using System.IO.Compression;
using Sandarac.Imaging;
using Sandarac.Studio;

namespace Sandarac.Server.Walks;

/// <summary>One walk on its way into a zip.</summary>
internal sealed class WalkZip : IDisposable, IProgress<double>
{
    public const string IsRunning = "running", IsDone = "done", IsFailed = "failed", IsCancelled = "cancelled";

    /// <summary>Pictures take most of the time; packing them the rest.</summary>
    private const double Packing = 0.1;

    private readonly string _home = Directory.CreateTempSubdirectory("sandarac-walk-").FullName;
    private readonly CancellationTokenSource _cancel = new();
    private readonly Task _work;

    public WalkZip(string title, Func<string, IProgress<double>, CancellationToken, WalkExported> write)
    {
        var plain = string.Concat(title.Select(c => char.IsLetterOrDigit(c) ? char.ToLowerInvariant(c) : '-')).Trim('-');
        Name = plain.Length == 0 ? "walk" : plain[..Math.Min(60, plain.Length)];
        Path = System.IO.Path.Combine(_home, "walk.zip");
        _work = Task.Run(() => Make(write));
    }

    public Guid Id { get; } = Guid.CreateVersion7();

    /// <summary>The folder's name in it, and the file's when it is downloaded.</summary>
    public string Name { get; }

    public string Path { get; }

    public string State { get; private set; } = IsRunning;

    /// <summary>0 to 1.</summary>
    public double Done { get; private set; }

    public long? Bytes { get; private set; }

    public InputProblem? Problem { get; private set; }

    public IReadOnlyList<Warning> Warnings { get; private set; } = [];

    public void Report(double value) => Done = Math.Max(Done, (1 - Packing) * value);

    public void Cancel() => _cancel.Cancel();

    public void Dispose()
    {
        _cancel.Cancel();
        Task.WaitAny(_work);
        _cancel.Dispose();
        Directory.Delete(_home, recursive: true);
    }

    private void Make(Func<string, IProgress<double>, CancellationToken, WalkExported> write)
    {
        try
        {
            var folder = System.IO.Path.Combine(_home, Name);
            Warnings = write(folder, this, _cancel.Token).Warnings;
            // JPEG does not become smaller: packing is copying.
            ZipFile.CreateFromDirectory(folder, Path, CompressionLevel.Fastest, includeBaseDirectory: true);
            Directory.Delete(folder, recursive: true);
            _cancel.Token.ThrowIfCancellationRequested();
            (Bytes, Done, State) = (new FileInfo(Path).Length, 1, IsDone);
        }
        catch (OperationCanceledException)
        {
            State = IsCancelled;
        }
        catch (InputProblem problem)
        {
            (Problem, State) = (problem, IsFailed);
        }
        catch (Exception defect)
        {
            (Problem, State) = (new InputProblem("defect", Name, "The export failed, and it is the program's fault.", "Try again; if it stays so, export it by 'sandarac walk', which says more.", defect), IsFailed);
            throw;
        }
    }
}
