using Sandarac.Analysis.Spectra;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Datings;

/// <summary>Analyses that were made lately, by all that decides their numbers: the file's content and name, what the analysis was told, and its version. Nothing in it can go stale; it only forgets. Of any thread.</summary>
internal sealed class AnalysedSpectra
{
    /// <summary>An analysis of 2048 channels takes 50 kB, the largest that is read 0.4 MB.</summary>
    private const int Most = 32;

    private readonly Lock _held = new();

    /// <summary>The one that was asked for last stands last.</summary>
    private readonly List<(string Key, Lazy<SpectrumResult> Result)> _known = [];

    /// <summary>An analysis as it was made, or made now; who asks for one that another is making waits for it. One that fails is not kept.</summary>
    public SpectrumResult Of(SpectrumContent content, Func<SpectrumResult> analyse)
    {
        var key = string.Join('\n', [content.Sha256, content.FileName, $"{SpectrumAnalysis.Version}", .. content.Parameters.OrderBy(p => p.Key, StringComparer.Ordinal).Select(p => $"{p.Key}={p.Value}")]);
        var result = Known(key, analyse);
        try
        {
            return result.Value;
        }
        catch
        {
            lock (_held) _known.RemoveAll(k => k.Result == result);
            throw;
        }
    }

    private Lazy<SpectrumResult> Known(string key, Func<SpectrumResult> analyse)
    {
        lock (_held)
        {
            var at = _known.FindIndex(k => k.Key == key);
            var found = at < 0 ? (key, new Lazy<SpectrumResult>(analyse)) : _known[at];
            if (at >= 0) _known.RemoveAt(at);
            _known.Add(found);
            if (_known.Count > Most) _known.RemoveAt(0);
            return found.Item2;
        }
    }
}
