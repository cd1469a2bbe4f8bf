using System.Xml.Linq;

namespace Sandarac.Studio.Tests;

/// <summary>The house's floors: Imaging, then Analysis, then Studio, then Server, then Cli; Materials beside Analysis, on Imaging as it is. Read from the project files.</summary>
public sealed class HouseRules
{
    private static readonly Dictionary<string, string[]> MayUse = new()
    {
        ["Imaging"] = [],
        ["Materials"] = ["Imaging"],
        ["Analysis"] = ["Imaging"],
        ["Specimen"] = ["Imaging"],
        ["Studio"] = ["Imaging", "Analysis", "Materials"],
        ["Server"] = ["Imaging", "Analysis", "Materials", "Studio"],
        ["Cli"] = ["Imaging", "Analysis", "Materials", "Studio", "Server", "Specimen"],
    };

    private static string Root { get; } = FindRoot();

    private static IEnumerable<string> Projects => Directory.GetFiles(Path.Combine(Root, "src"), "*.csproj", SearchOption.AllDirectories);

    private static string FindRoot()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Sandarac.slnx"))) folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("Not run from a checkout.");
        return folder;
    }

    private static string Room(string path) => Path.GetFileNameWithoutExtension(path.Replace('\\', '/'))["Sandarac.".Length..];

    private static IEnumerable<string> Includes(string project, string element) => XDocument.Load(project).Descendants(element).Select(e => (string)e.Attribute("Include")!);

    [Fact]
    public void Rooms_refer_downwards_only()
    {
        var rooms = Projects.ToDictionary(Room, p => Includes(p, "ProjectReference").Select(Room).ToList());
        Assert.Equal(MayUse.Keys.Order(StringComparer.Ordinal), rooms.Keys.Order(StringComparer.Ordinal));
        Assert.All(rooms, room => Assert.Subset(MayUse[room.Key].ToHashSet(), room.Value.ToHashSet()));
    }

    [Theory]
    [InlineData("NetVips", new[] { "Imaging" })]
    [InlineData("Microsoft.EntityFrameworkCore", new[] { "Studio", "Server" })]
    [InlineData("Npgsql", new[] { "Studio" })]
    [InlineData("Hangfire", new[] { "Studio", "Server" })]
    [InlineData("Microsoft.AspNetCore", new[] { "Server" })]
    [InlineData("Spectre.Console", new[] { "Cli" })]
    public void A_package_belongs_to_its_room(string package, string[] rooms)
    {
        var users = Projects.Where(p => Includes(p, "PackageReference").Any(i => i.StartsWith(package, StringComparison.Ordinal))).Select(Room).ToHashSet();
        Assert.Subset(rooms.ToHashSet(), users);
    }

    [Theory]
    [InlineData("NetVips", new[] { "Imaging" })]
    [InlineData("Microsoft.EntityFrameworkCore", new[] { "Studio", "Server" })]
    [InlineData("Microsoft.AspNetCore", new[] { "Server" })]
    public void A_library_is_named_only_in_its_room(string library, string[] rooms)
    {
        var users = Directory.GetFiles(Path.Combine(Root, "src"), "*.cs", SearchOption.AllDirectories)
            .Where(f => !f.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal))
            .Where(f => File.ReadLines(f).Any(l => l.StartsWith($"using {library}", StringComparison.Ordinal)))
            .Select(f => Path.GetRelativePath(Path.Combine(Root, "src"), f).Split(Path.DirectorySeparatorChar)[0]["Sandarac.".Length..]).ToHashSet();
        Assert.Subset(rooms.ToHashSet(), users);
    }

    [Theory]
    [InlineData("Imaging")]
    [InlineData("Analysis")]
    public void Lower_rooms_know_neither_database_nor_network_nor_logging(string room)
    {
        string[] foreign = ["using Microsoft.Data", "using System.Data", "using System.Net.Http", "using Microsoft.Extensions.Logging", "using Sandarac.Studio"];
        var lines = Directory.GetFiles(Path.Combine(Root, "src", $"Sandarac.{room}"), "*.cs", SearchOption.AllDirectories).SelectMany(File.ReadLines);
        Assert.DoesNotContain(lines, l => foreign.Any(f => l.StartsWith(f, StringComparison.Ordinal)));
    }
}
