using System.IO.Compression;
using System.Text;
using Sandarac.Imaging;
using Sandarac.Studio.Archive;
using Sandarac.Studio.Archive.BagIt;

namespace Sandarac.Studio.Tests.Archive;

/// <summary>Packages that are unsound as bags or as zips. The studio stays as it was.</summary>
[Collection(nameof(PackedOnce))]
public sealed class HostileBagTests(PackedOnce studios)
{
    private static readonly Dictionary<string, (string Code, Action<string> Change)> Changes = new()
    {
        ["a byte of an original"] = ("damaged", bag => Forgery.Flip(Directory.GetFiles(Path.Combine(bag, "data", "originals"), "*", SearchOption.AllDirectories).First(f => new FileInfo(f).Length > 0), 0)),
        ["a byte of the record"] = ("damaged", bag => Forgery.Flip(Path.Combine(bag, "data", "record", "record.json"), 40)),
        ["a byte of bag-info.txt"] = ("damaged", bag => Forgery.Flip(Path.Combine(bag, "bag-info.txt"), 30)),
        ["a line of the manifest is gone"] = ("extra", bag => File.WriteAllLines(Path.Combine(bag, "manifest-sha512.txt"), File.ReadAllLines(Path.Combine(bag, "manifest-sha512.txt"))[1..])),
        ["a file too many"] = ("extra", bag => File.WriteAllText(Path.Combine(bag, "data", "originals", "extra.tif"), "x")),
        ["a file is gone"] = ("missing", bag => File.Delete(Path.Combine(bag, "data", "record", "context.jsonld"))),
        ["a file is cut short"] = ("damaged", bag => File.WriteAllText(Path.Combine(bag, "data", "record", "record.jsonld"), "{")),
        ["a file is to be fetched"] = ("incomplete", bag => { File.Delete(Path.Combine(bag, "data", "record", "context.jsonld")); File.WriteAllText(Path.Combine(bag, "fetch.txt"), "http://localhost:9/x - data/record/context.jsonld\n"); }),
        ["the manifest leads out"] = ("path-escape", bag => File.AppendAllText(Path.Combine(bag, "manifest-sha512.txt"), $"{new string('0', 128)}  data/../../secret\n")),
        ["the manifest leads to the machine"] = ("path-escape", bag => File.AppendAllText(Path.Combine(bag, "manifest-sha512.txt"), $"{new string('0', 128)}  /etc/passwd\n")),
        ["the manifest's encoding leads out"] = ("path-escape", bag => File.AppendAllText(Path.Combine(bag, "manifest-sha512.txt"), $"{new string('0', 128)}  data/%0A/../x\n")),
        ["the manifest is not UTF-8"] = ("unreadable", bag => File.AppendAllText(Path.Combine(bag, "manifest-sha512.txt"), "\u00ff\u00fe", Encoding.Latin1)),
        ["the manifest is UTF-16"] = ("manifest-line", bag => File.WriteAllText(Path.Combine(bag, "manifest-sha512.txt"), "data/x", new UnicodeEncoding(false, false))),
        ["an encoding that nobody has"] = ("unreadable", bag => File.WriteAllText(Path.Combine(bag, "bagit.txt"), "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-7\n")),
        ["a version that nobody knows"] = ("unreadable", bag => File.WriteAllText(Path.Combine(bag, "bagit.txt"), "BagIt-Version: 2.0\nTag-File-Character-Encoding: UTF-8\n")),
        ["a hash that is too short"] = ("manifest-line", bag => File.AppendAllText(Path.Combine(bag, "manifest-sha512.txt"), "00  data/x\n")),
        ["no payload"] = ("no-payload", bag => Directory.Delete(Path.Combine(bag, "data"), recursive: true)),
        ["no manifest"] = ("no-manifest", bag => File.Delete(Path.Combine(bag, "manifest-sha512.txt"))),
        ["another size than stated"] = ("oxum", bag => File.WriteAllText(Path.Combine(bag, "bag-info.txt"), "Payload-Oxum: 1.1\n")),
    };

    public static TheoryData<string> Names => [.. Changes.Keys];

    [Theory, MemberData(nameof(Names))]
    public void Tampered_bags_are_refused(string name)
    {
        var bag = studios.Copy();
        Changes[name].Change(bag);
        Assert.Contains(Unpacking.Check(bag, null, TestContext.Current.CancellationToken).Problems, p => p.Code == Changes[name].Code);
        Assert.Equal("bag-invalid", Assert.Throws<InputProblem>(() => PackStudios.Unpack(studios.B, bag)).Code);
        PackStudios.AssertEmpty(studios.B);
    }

    [Fact]
    public void Links_in_a_folder_are_refused()
    {
        var bag = studios.Copy();
        File.CreateSymbolicLink(Path.Combine(bag, "data", "passwords.txt"), "/etc/passwd");
        Refused("symbolic-link", bag);
        File.Delete(Path.Combine(bag, "data", "passwords.txt"));
        Directory.CreateSymbolicLink(Path.Combine(bag, "more"), "/etc");
        Refused("symbolic-link", bag);
    }

    /// <summary>A pipe would be waited for without end.</summary>
    [Fact]
    public void Pipes_in_a_folder_are_not_waited_for()
    {
        if (!OperatingSystem.IsLinux()) Assert.Skip("Pipes have no place in folders here.");
        var bag = studios.Copy();
        foreach (var name in new[] { "data/pipe", "fetch.txt" })
            using (var mkfifo = System.Diagnostics.Process.Start("mkfifo", Path.Combine(bag, name))) mkfifo.WaitForExit();
        Assert.Contains(Unpacking.Check(bag, null, TestContext.Current.CancellationToken).Problems, p => (p.Code, p.Subject) == ("extra", "data/pipe"));
    }

    [Fact]
    public void What_is_no_bag_is_refused()
    {
        Refused("bag-missing", studios["nothing"]);
        Refused("bag-invalid", Directory.CreateDirectory(studios["empty"]).FullName);
        File.WriteAllText(studios["letter.txt"], "a letter");
        Refused("bag-zip", studios["letter.txt"]);
        File.WriteAllText(studios["none.zip"], "");
        Refused("bag-zip", studios["none.zip"]);
    }

    [Theory]
    [InlineData("bag/../../evil.txt")]
    [InlineData("/etc/cron.d/evil")]
    [InlineData("C:/evil.txt")]
    [InlineData("bag\\..\\evil.txt")]
    [InlineData("~/evil.txt")]
    [InlineData("bag//evil.txt")]
    [InlineData("bag/./evil.txt")]
    [InlineData("bag/\u0007")]
    public void Zips_that_lead_out_are_refused(string name) => Refused("path-escape", Zip(zip => zip.CreateEntry(name).Open().Dispose()));

    [Fact]
    public void Zips_with_links_are_refused() => Refused("symbolic-link", Zip(zip => zip.CreateEntry("bag/data/link").ExternalAttributes = unchecked((int)0xA1FF0000)));

    [Fact]
    public void Zips_with_an_entry_twice_are_refused() => Refused("zip-entry-twice", Zip(zip =>
    {
        zip.CreateEntry("bag/bagit.txt").Open().Dispose();
        zip.CreateEntry("bag/bagit.txt").Open().Dispose();
    }));

    [Fact]
    public void Zips_that_are_a_thousand_times_larger_inside_are_refused() => Refused("zip-bomb", Zip(zip =>
    {
        using var stream = zip.CreateEntry("bag/data/zeros", CompressionLevel.SmallestSize).Open();
        var zeros = new byte[1 << 20];
        for (var i = 0; i < 65; i++) stream.Write(zeros);
    }));

    [Fact]
    public void Zips_that_state_less_than_they_hold_are_refused()
    {
        var path = Zip(zip =>
        {
            using (var bagit = zip.CreateEntry("bag/bagit.txt").Open()) bagit.Write("BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"u8);
            using (var manifest = zip.CreateEntry("bag/manifest-sha512.txt").Open()) manifest.Write(Encoding.ASCII.GetBytes($"{new string('0', 128)}  data/zeros\n"));
            using var stream = zip.CreateEntry("bag/data/zeros", CompressionLevel.SmallestSize).Open();
            stream.Write(new byte[1_000_000]);
        });
        var bytes = File.ReadAllBytes(path);
        // The length in the central directory: 24 bytes after the signature of the last entry there.
        var entry = bytes.AsSpan().LastIndexOf("PK\x01\x02"u8);
        BitConverter.GetBytes(10).CopyTo(bytes, entry + 24);
        File.WriteAllBytes(path, bytes);
        Refused("bag-invalid", path);
    }

    [Fact]
    public void Zips_that_are_cut_short_or_damaged_are_refused()
    {
        var whole = File.ReadAllBytes(studios.Zip);
        foreach (var length in new[] { 10, whole.Length / 2, whole.Length - 1 })
        {
            File.WriteAllBytes(studios["cut.zip"], whole[..length]);
            Refused("bag-zip", studios["cut.zip"]);
        }
        var random = new Random(1);
        for (var i = 0; i < 15; i++)
        {
            var damaged = (byte[])whole.Clone();
            damaged[random.Next(damaged.Length)] ^= (byte)(1 << random.Next(8));
            File.WriteAllBytes(studios["damaged.zip"], damaged);
            // Dates and other things that nobody relies on may be hit: then all is as it was.
            try
            {
                if (Unpacking.Check(studios["damaged.zip"], null, TestContext.Current.CancellationToken).IsSound) continue;
            }
            catch (InputProblem)
            {
                continue;
            }
            Assert.Throws<InputProblem>(() => PackStudios.Unpack(studios.B, studios["damaged.zip"]));
            PackStudios.AssertEmpty(studios.B);
        }
    }

    [Fact]
    public void Bags_beyond_the_limits_are_refused()
    {
        var bag = studios.Copy();
        foreach (var limits in new[] { new BagLimits { Files = 5 }, new BagLimits { Depth = 1 }, new BagLimits { Bytes = 1000 } })
            Assert.Equal("bag-size", Assert.Throws<InputProblem>(() => new Unpacking(studios.B, limits).Unpack(bag, cancellation: TestContext.Current.CancellationToken)).Code);
        Assert.Equal("bag-invalid", Assert.Throws<InputProblem>(() => new Unpacking(studios.B, new BagLimits { TagBytes = 100 }).Unpack(bag, cancellation: TestContext.Current.CancellationToken)).Code);
        PackStudios.AssertEmpty(studios.B);
    }

    [Fact]
    public void A_sound_bag_of_something_else_is_refused()
    {
        var bag = studios["other"];
        Directory.CreateDirectory(Path.Combine(bag, "data"));
        File.WriteAllText(Path.Combine(bag, "bagit.txt"), "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n");
        File.WriteAllText(Path.Combine(bag, "data", "letter.txt"), "a letter");
        Forgery.Seal(bag);
        Refused("no-record", bag);
    }

    private string Zip(Action<ZipArchive> fill)
    {
        var path = studios[$"{Guid.NewGuid()}.zip"];
        using var zip = ZipFile.Open(path, ZipArchiveMode.Create);
        fill(zip);
        return path;
    }

    private void Refused(string code, string bag)
    {
        Assert.Equal(code, Assert.Throws<InputProblem>(() => PackStudios.Unpack(studios.B, bag)).Code);
        PackStudios.AssertEmpty(studios.B);
    }
}
