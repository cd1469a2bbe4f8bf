using System.Collections.Concurrent;
using Sandarac.Imaging;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Studio.Storage;

/// <summary>Pyramids kept open, because a pointer that moves over the Easel asks all of them again and again. Any thread may read.</summary>
public sealed class PyramidPool : IDisposable
{
    /// <summary>Files kept open; more are opened and closed again.</summary>
    private const int Capacity = 256;

    private readonly ConcurrentDictionary<string, Lazy<PyramidFile>> _open = new();
    private readonly ObjectStore _objects;

    internal PyramidPool(ObjectStore objects) => _objects = objects;

    /// <summary>Reads from a pyramid.</summary>
    /// <param name="sha256">Its object.</param>
    /// <param name="read">What to read; must not keep the file.</param>
    /// <exception cref="InputProblem">The object is missing or damaged.</exception>
    public T Read<T>(string sha256, Func<PyramidFile, T> read)
    {
        if (_open.TryGetValue(sha256, out var known)) return read(known.Value);
        var file = new Lazy<PyramidFile>(() => Open(sha256));
        if (_open.Count < Capacity) return read(_open.GetOrAdd(sha256, file).Value);
        using (file.Value) return read(file.Value);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (var file in _open.Values.Where(f => f.IsValueCreated)) file.Value.Dispose();
        _open.Clear();
    }

    private PyramidFile Open(string sha256)
    {
        _objects.OpenRead(sha256).Dispose();
        try
        {
            return PyramidFile.Open(_objects.PathOf(sha256));
        }
        catch (InvalidDataException e)
        {
            throw new InputProblem("object-damaged", sha256, $"The object {sha256[..12]} is damaged: it is no longer a pyramid.", "Restore it from a copy; `sandarac check` lists every damaged object.", e);
        }
    }
}
