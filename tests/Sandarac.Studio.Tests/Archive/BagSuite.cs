using System.Text;
using Sandarac.Studio.Archive.BagIt;

namespace Sandarac.Studio.Tests.Archive;

/// <summary>The public conformance suite: 60 bags, each in a folder named after the expected verdict (References/BagIt/SOURCE.md).</summary>
public sealed class BagSuite
{
    private static string Root { get; } = FindRoot();

    public static TheoryData<string> Bags(string verdict) => [.. Directory.GetDirectories(Root, "v*").SelectMany(v => Directory.Exists(Path.Combine(v, verdict)) ? Directory.GetDirectories(Path.Combine(v, verdict)) : [])
        .Select(b => Path.GetRelativePath(Root, b).Replace('\\', '/')).Order(StringComparer.Ordinal)];

    [Theory, MemberData(nameof(Bags), "valid")]
    public void Valid_bags_are_accepted(string bag) => Assert.Empty(Validate(bag).Problems);

    [Theory, MemberData(nameof(Bags), "invalid")]
    public void Invalid_bags_are_refused(string bag) => Assert.NotEmpty(Validate(bag).Problems);

    [Theory, MemberData(nameof(Bags), "warning")]
    public void Bags_to_be_warned_of_are_accepted_with_a_warning(string bag)
    {
        var verdict = Validate(bag);
        Assert.Empty(verdict.Problems);
        Assert.NotEmpty(verdict.Warnings);
    }

    /// <summary>Bags that do harm on one kind of machine only are refused on all: a bag's validity should not depend on who looks at it.</summary>
    [Theory, MemberData(nameof(Bags), "linux-only"), MemberData(nameof(Bags), "windows-only")]
    public void Bags_that_lead_elsewhere_on_some_machine_are_refused_on_all(string bag) => Assert.Contains(Validate(bag).Problems, p => p.Code == "path-escape");

    [Fact]
    public void All_bags_of_the_suite_are_there() => Assert.Equal((27, 15, 6, 6, 6), (Bags("valid").Count, Bags("invalid").Count, Bags("warning").Count, Bags("linux-only").Count, Bags("windows-only").Count));

    [Theory]
    [InlineData("v0.97/invalid/baginfo-missing-encoding", "unreadable", "bagit.txt")]
    [InlineData("v0.97/invalid/bom-in-bagit.txt", "unreadable", "bagit.txt")]
    [InlineData("v0.97/invalid/corrupt-data-file", "damaged", "data/bare-filename")]
    [InlineData("v0.97/invalid/corrupt-tag-file", "damaged", "bag-info.txt")]
    [InlineData("v0.97/invalid/extra-file-in-bag", "extra", "data/bar")]
    [InlineData("v0.97/invalid/invalid-version-number", "unreadable", "bagit.txt")]
    [InlineData("v0.97/invalid/missing-baginfo", "missing", "bag-info.txt")]
    [InlineData("v0.97/invalid/missing-bagit.txt", "no-bag", "bagit.txt")]
    [InlineData("v0.97/invalid/out-of-scope-file-paths-using-dot-notation", "path-escape", "manifest-md5.txt")]
    [InlineData("v0.97/invalid/out-of-scope-file-paths-using-dot-notation-for-fetch", "path-escape", "fetch.txt")]
    [InlineData("v0.97/invalid/same-filename-listed-twice-with-different-hashes", "listed-twice", "manifest-sha256.txt")]
    [InlineData("v1.0/invalid/bagit-with-invalid-whitespace", "unreadable", "bagit.txt")]
    [InlineData("v1.0/invalid/notAllManifestsListAllFiles", "extra", "data/missingFromManifest.txt")]
    public void Invalid_bags_are_refused_for_the_reason_they_were_made_for(string bag, string code, string subject) => Assert.Contains(Validate(bag).Problems, p => (p.Code, p.Subject) == (code, subject));

    [Theory]
    [InlineData("duplicate-file-with-different-case", "lookalike")]
    [InlineData("made-with-md5sum-tools", "md5sum-mark")]
    [InlineData("relative-path", "relative-path")]
    [InlineData("same-filename-listed-twice-with-different-normalization", "lookalike")]
    [InlineData("same-filename-listed-twice-with-the-same-hash", "listed-twice")]
    [InlineData("special-system-files", "system-file")]
    public void Warnings_are_those_the_bags_were_made_for(string bag, string code) => Assert.Contains(Validate($"v0.97/warning/{bag}").Warnings, w => w.Code == code);

    /// <summary>hashlib of Python 3.11.2, and "abc" of FIPS 180-4's examples; lengths about the ends of blocks.</summary>
    [Theory]
    [InlineData(0, "d14a028c2a3a2bc9476102bb288234c415a2b01f828ea62ac5b3e42f")]
    [InlineData(1, "fff9292b4201617bdc4d3053fce02734166a683d7d858a7f5f59b073")]
    [InlineData(55, "8991dfba74284e04dc7581c7c3e4068ff6cb7a63733361429834bb56")]
    [InlineData(56, "2b2cd637c16ad7290bb067ad7d8fd04e204fa43a84366afc7130f4ef")]
    [InlineData(63, "049e8dd7eab3378ce9f823bfb569e5b270235d4b7f9623606971998f")]
    [InlineData(64, "c37b88a3522dbf7ac30d1c68ea397ac11d4773571aed01ddab73531e")]
    [InlineData(65, "114b5fd665736a96585c5d5837d35250aed73c725252cbf7f8b121f6")]
    [InlineData(1280, "e2e07ef955598bf865c30a5dca2ac6af0711cf7b28d37f58a81acef3")]
    public void Known_Sha224(int length, string expected) => Assert.Equal(expected, Sha224Of([.. Enumerable.Range(0, length).Select(i => (byte)i)]));

    [Fact]
    public void Known_Sha224_of_abc() => Assert.Equal("23097d223405d8228642a477bda255b32aadbce4bda0b3f7e36c9da7", Sha224Of(Encoding.ASCII.GetBytes("abc")));

    private static string Sha224Of(byte[] bytes)
    {
        using var digest = Digest.Begin("sha224");
        digest.Append(bytes);
        return digest.End();
    }

    private static BagVerdict Validate(string bag)
    {
        using var source = BagSources.Open(Path.Combine(Root, bag), new BagLimits());
        return BagValidation.Validate(source, new BagLimits(), cancellation: TestContext.Current.CancellationToken);
    }

    private static string FindRoot()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Sandarac.slnx"))) folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("Not run from a checkout.");
        return Path.Combine(folder, "tests", "Sandarac.Studio.Tests", "References", "BagIt");
    }
}
