using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;

namespace Sandarac.Studio.Tests.Archive;

/// <summary>Changes packages as someone would who does not mean well, and knows how to make the hashes right again.</summary>
internal static class Forgery
{
    public static void Flip(string file, long at)
    {
        using var stream = File.Open(file, FileMode.Open);
        stream.Position = at;
        var value = stream.ReadByte();
        stream.Position = at;
        stream.WriteByte((byte)(value ^ 1));
    }

    /// <summary>Changes record.json and seals the bag again.</summary>
    public static void Rewrite(string bag, Action<JsonObject> change)
    {
        var file = Path.Combine(bag, "data", "record", "record.json");
        var record = JsonNode.Parse(File.ReadAllText(file))!.AsObject();
        change(record);
        File.WriteAllText(file, record.ToJsonString());
        Seal(bag);
    }

    /// <summary>Makes manifests and sizes those of the files that are there.</summary>
    public static void Seal(string bag)
    {
        var payload = Directory.GetFiles(Path.Combine(bag, "data"), "*", SearchOption.AllDirectories);
        File.WriteAllText(Path.Combine(bag, "bag-info.txt"), $"Payload-Oxum: {payload.Sum(f => new FileInfo(f).Length)}.{payload.Length}\n");
        File.WriteAllText(Path.Combine(bag, "manifest-sha512.txt"), string.Concat(payload.Select(f => Line(bag, f))));
        File.WriteAllText(Path.Combine(bag, "tagmanifest-sha512.txt"), string.Concat(new[] { "bagit.txt", "bag-info.txt", "manifest-sha512.txt" }.Select(f => Line(bag, Path.Combine(bag, f)))));
    }

    public static JsonObject First(this JsonObject record, string table) => record["tables"]![table]![0]!.AsObject();

    private static string Line(string bag, string file) => $"{Convert.ToHexStringLower(SHA512.HashData(File.ReadAllBytes(file)))}  {Path.GetRelativePath(bag, file).Replace('\\', '/').Replace("%", "%25", StringComparison.Ordinal)}\n";

    /// <summary>A text so many brackets deep.</summary>
    public static string Nested(int depth) => new StringBuilder().Append('[', depth).Append(']', depth).ToString();
}
