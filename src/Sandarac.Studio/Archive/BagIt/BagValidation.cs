namespace Sandarac.Studio.Archive.BagIt;

/// <summary>Whether a bag is complete and whole, by RFC 8493 and, for older ones, by the drafts 0.93 to 0.97. Every file is read once, whatever the number of manifests.</summary>
internal sealed class BagValidation
{
    private readonly IBagSource _source;
    private readonly Dictionary<string, BagFile> _files;
    private readonly List<BagNote> _problems = [];
    private readonly List<BagNote> _warnings;
    private readonly BagLimits _limits;
    private BagDeclaration? _declaration;

    private BagValidation(IBagSource source, BagLimits limits)
    {
        (_source, _limits) = (source, limits);
        _files = source.Files.ToDictionary(f => f.Path, StringComparer.Ordinal);
        _warnings = [.. source.Warnings];
    }

    /// <summary>Looks at everything in a bag.</summary>
    public static BagVerdict Validate(IBagSource source, BagLimits limits, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        var validation = new BagValidation(source, limits);
        if (validation.Declared()) validation.Look(progress, cancellation);
        return new BagVerdict(validation._declaration?.Version, [.. validation._problems.Distinct()], [.. validation._warnings.Distinct()]);
    }

    private bool Declared()
    {
        if (!_files.ContainsKey("bagit.txt")) Wrong("no-bag", "bagit.txt", "There is no bagit.txt: this is not a bag.");
        else if (Bytes("bagit.txt") is { } bytes) Try("bagit.txt", () => _declaration = BagDeclaration.Read(bytes));
        return _declaration is not null;
    }

    private void Look(IProgress<double>? progress, CancellationToken cancellation)
    {
        var manifests = Manifests();
        var payload = manifests.Where(m => !m.FileName.StartsWith("tag", StringComparison.Ordinal)).ToList();
        if (!_source.HasPayload) Wrong("no-payload", "data", "There is no payload folder data.");
        if (payload.Count == 0) Wrong("no-manifest", "manifest", "There is no payload manifest with a hash that can be checked.");
        LookAtFetch(payload);
        LookAtInfo();
        LookForMissing(manifests);
        LookForExtra(payload);
        foreach (var path in manifests.SelectMany(m => m.Lines).Select(l => l.Path).Concat(_files.Keys).Where(BagPath.IsSystemFile).Distinct()) Warn("system-file", path, "A desktop's own file, which nobody meant to keep.");
        LookForLookalikes(manifests);
        Compare(manifests, progress, cancellation);
    }

    private List<Manifest> Manifests()
    {
        List<Manifest> manifests = [];
        foreach (var path in _files.Keys.Where(p => Manifest.Named(p) is not null).Order(StringComparer.Ordinal))
            if (!Digest.Digits.ContainsKey(Manifest.Named(path)!.Value.Algorithm)) Warn("unknown-hash", path, "Its hash is not one that can be checked here.");
            else if (Text(path) is { } text) manifests.Add(Manifest.Read(path, text, _declaration!.Version, _problems, _warnings));
        return manifests;
    }

    private void LookAtFetch(List<Manifest> payload)
    {
        if (!_files.ContainsKey("fetch.txt") || Text("fetch.txt") is not { } text) return;
        var listed = payload.Select(m => m.Lines.Select(l => l.Path).ToHashSet(StringComparer.Ordinal)).ToList();
        foreach (var path in FetchList.Read(text, _declaration!.Version, _problems))
        {
            if (!_files.ContainsKey(path)) Wrong("incomplete", path, "It was left out to be fetched from elsewhere; nothing is fetched.");
            if (!_declaration.Version.IsDraft && !listed.All(l => l.Contains(path))) Wrong("fetch-unlisted", path, "fetch.txt names it, but not every manifest does.");
        }
    }

    private void LookAtInfo()
    {
        var name = BagInfo.FileName(_declaration!.Version);
        if (!_files.ContainsKey(name) || Text(name) is not { } text) return;
        var payload = _source.Files.Where(f => BagPath.IsPayload(f.Path)).ToList();
        foreach (var (_, oxum) in BagInfo.Read(name, text, _problems).Where(p => p.Label.Equals("Payload-Oxum", StringComparison.OrdinalIgnoreCase)))
            if (!BagInfo.IsOxumOf(oxum, payload.Sum(f => f.Bytes), payload.Count)) Wrong("oxum", name, $"It states a payload of {oxum} (bytes.files), but {BagInfo.Oxum(payload.Sum(f => f.Bytes), payload.Count)} are there.");
    }

    /// <summary>A bag made on a machine that tells neither case nor accents apart lists one file under two names with one hash: nothing is lost when one of them is there.</summary>
    private void LookForMissing(List<Manifest> manifests)
    {
        foreach (var manifest in manifests)
        {
            var there = manifest.Lines.Where(l => _files.ContainsKey(l.Path)).Select(l => (BagPath.Folded(l.Path), l.Hash)).ToHashSet();
            foreach (var line in manifest.Lines.Where(l => !_files.ContainsKey(l.Path) && !there.Contains((BagPath.Folded(l.Path), l.Hash)))) Wrong("missing", line.Path, $"{manifest.FileName} lists it, but it is not there.");
        }
    }

    private void LookForExtra(List<Manifest> payload)
    {
        var listed = payload.Select(m => m.Lines.Select(l => l.Path).ToHashSet(StringComparer.Ordinal)).ToList();
        foreach (var path in _files.Keys.Where(BagPath.IsPayload))
            if (!listed.Any(l => l.Contains(path))) Wrong("extra", path, "It is in the payload, but no manifest lists it.");
            else if (!_declaration!.Version.IsDraft && !listed.All(l => l.Contains(path))) Wrong("extra", path, "It is in the payload, but not every manifest lists it, as RFC 8493 demands.");
    }

    private void LookForLookalikes(List<Manifest> manifests)
    {
        foreach (var group in manifests.SelectMany(m => m.Lines).Select(l => l.Path).Concat(_files.Keys).Distinct(StringComparer.Ordinal).GroupBy(BagPath.Folded).Where(g => g.Count() > 1))
            Warn("lookalike", group.Order(StringComparer.Ordinal).First(), $"{group.Count()} names differ in case or in how an accent is written: some machines take them for one.");
    }

    private void Compare(List<Manifest> manifests, IProgress<double>? progress, CancellationToken cancellation)
    {
        var expected = manifests.SelectMany(m => m.Lines.Select(l => (l.Path, m.Algorithm, l.Hash, m.FileName))).Where(l => _files.ContainsKey(l.Path)).ToLookup(l => l.Path, StringComparer.Ordinal);
        var (total, done) = (Math.Max(1, expected.Sum(e => (double)_files[e.Key].Bytes)), 0.0);
        foreach (var lines in expected.OrderBy(e => e.Key, StringComparer.Ordinal))
        {
            Try(lines.Key, () =>
            {
                var hashes = Hashes(_files[lines.Key], [.. lines.Select(l => l.Algorithm).Distinct()], cancellation);
                foreach (var line in lines.Where(l => hashes[l.Algorithm] != l.Hash)) Wrong("damaged", line.Path, $"Its content does not have the hash that {line.FileName} states.");
            });
            progress?.Report((done += _files[lines.Key].Bytes) / total);
        }
    }

    private Dictionary<string, string> Hashes(BagFile file, string[] algorithms, CancellationToken cancellation)
    {
        var digests = algorithms.Select(Digest.Begin).ToList();
        try
        {
            using var stream = _source.Open(file);
            var buffer = new byte[1 << 18];
            for (int read; (read = stream.Read(buffer)) > 0;)
            {
                cancellation.ThrowIfCancellationRequested();
                foreach (var digest in digests) digest.Append(buffer.AsSpan(0, read));
            }
            return algorithms.Zip(digests).ToDictionary(d => d.First, d => d.Second.End());
        }
        finally
        {
            foreach (var digest in digests) digest.Dispose();
        }
    }

    private string? Text(string path)
    {
        string? text = null;
        if (Bytes(path) is { } bytes) Try(path, () => text = TagText.Decode(bytes, _declaration!.Encoding));
        return text;
    }

    private byte[]? Bytes(string path)
    {
        if (_files[path].Bytes > _limits.TagBytes)
        {
            Wrong("tag-size", path, $"It is larger than {_limits.TagBytes >> 20} MB, which no tag file needs.");
            return null;
        }
        byte[]? bytes = null;
        Try(path, () =>
        {
            using var stream = _source.Open(_files[path]);
            using var copy = new MemoryStream();
            stream.CopyTo(copy);
            bytes = copy.ToArray();
        });
        return bytes;
    }

    private void Try(string path, Action read)
    {
        try
        {
            read();
        }
        catch (Exception e) when (e is InvalidDataException or IOException or UnauthorizedAccessException)
        {
            Wrong("unreadable", path, $"{path} {(e is InvalidDataException ? e.Message : $"cannot be read: {e.Message}")}.");
        }
    }

    private void Wrong(string code, string subject, string message) => _problems.Add(new BagNote(code, subject, message));

    private void Warn(string code, string subject, string message) => _warnings.Add(new BagNote(code, subject, message));
}
