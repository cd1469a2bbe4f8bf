using System.Security.Cryptography;

namespace Sandarac.Studio.Archive.BagIt;

/// <summary>A hash being taken, by the name that manifests give it.</summary>
internal sealed class Digest : IDisposable
{
    private readonly IncrementalHash? _hash;
    private readonly Sha224? _sha224;

    private Digest(IncrementalHash? hash) => (_hash, _sha224) = (hash, hash is null ? new Sha224() : null);

    /// <summary>Digits of each hash, by name. MD5 and SHA-1 stop no forger, but tell damage; they are read and never written.</summary>
    public static IReadOnlyDictionary<string, int> Digits { get; } = new Dictionary<string, int> { ["md5"] = 32, ["sha1"] = 40, ["sha224"] = 56, ["sha256"] = 64, ["sha384"] = 96, ["sha512"] = 128 };

#pragma warning disable CA5350, CA5351 // Old bags have no other hashes; see Digits.
    public static Digest Begin(string name) => new(name switch
    {
        "md5" => IncrementalHash.CreateHash(HashAlgorithmName.MD5),
        "sha1" => IncrementalHash.CreateHash(HashAlgorithmName.SHA1),
        "sha224" => null,
        "sha256" => IncrementalHash.CreateHash(HashAlgorithmName.SHA256),
        "sha384" => IncrementalHash.CreateHash(HashAlgorithmName.SHA384),
        "sha512" => IncrementalHash.CreateHash(HashAlgorithmName.SHA512),
        _ => throw new ArgumentException($"No hash {name}.", nameof(name)),
    });
#pragma warning restore CA5350, CA5351

    public void Append(ReadOnlySpan<byte> bytes)
    {
        _hash?.AppendData(bytes);
        _sha224?.Append(bytes);
    }

    /// <summary>Lower-case hexadecimal; only once.</summary>
    public string End() => Convert.ToHexStringLower(_hash?.GetHashAndReset() ?? _sha224!.End());

    public void Dispose() => _hash?.Dispose();
}
