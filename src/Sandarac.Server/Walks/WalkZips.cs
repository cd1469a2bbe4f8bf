using System.Collections.Concurrent;
using Sandarac.Imaging;
using Sandarac.Studio;

namespace Sandarac.Server.Walks;

/// <summary>Zips of walks that people asked for in the browser: made one at a time, kept until the next is asked for or the program ends.</summary>
internal sealed class WalkZips(OpenStudio studio, ServerOptions options) : IDisposable
{
    private readonly ConcurrentDictionary<Guid, WalkZip> _zips = new();
    private readonly Lock _gate = new();

    /// <summary>Starts one.</summary>
    /// <exception cref="InputProblem">"unknown-walk"; another is under way ("export-busy").</exception>
    public WalkZip Start(Guid walkId, WalkExportOptions ask)
    {
        var walk = new Studio.Walks(studio).Find(walkId);
        lock (_gate)
        {
            if (_zips.Values.Any(z => z.State == WalkZip.IsRunning)) throw new InputProblem("export-busy", walk.Content.Title, "Another walk is being exported.", "Wait until it is done, or cancel it.");
            Clear();
            var zip = new WalkZip(walk.Content.Title, (folder, progress, stop) => new WalkExport(studio, options.ViewerFolder ?? ShippedViewer.Folder).Write(walk.PaintingId, walk.Content, folder, ask, progress, stop));
            return _zips[zip.Id] = zip;
        }
    }

    /// <exception cref="InputProblem">There is none ("unknown-export").</exception>
    public WalkZip Find(Guid id) => _zips.TryGetValue(id, out var zip) ? zip : throw new InputProblem("unknown-export", id.ToString(), "There is no such export any more.", "Start another.");

    public void Dispose() => Clear();

    private void Clear()
    {
        foreach (var zip in _zips.Values) zip.Dispose();
        _zips.Clear();
    }
}
