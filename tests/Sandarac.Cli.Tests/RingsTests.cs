using System.Text.Json;

namespace Sandarac.Cli.Tests;

public class RingsTests
{
    /// <summary>The board's true year as its collectors have it (References/Rings/SOURCE.md of the analysis' tests).</summary>
    [Fact]
    public void A_series_is_converted_dated_and_explained()
    {
        using var folder = new TemporaryFolder();
        var board = Board(folder);
        var (code, text, error) = CommandLine.Run("rings", "date", board, "--against", Reference("co021.rwl"), "--against", Reference("nc004.rwl"), "--sapwood", "10", "--model", "southern-baltic", "--seasoning", "oak-16-17", "--out", folder["out"], "--json");
        Assert.True(code == 0, error);
        var result = JsonDocument.Parse(text).RootElement;
        Assert.Equal(("one-reference", 1963), (result.GetProperty("strength").GetString(), result.GetProperty("lastRing").GetInt32()));
        Assert.Equal("co021.rwl", result.GetProperty("leftOutOf").EnumerateArray().Single().GetString());
        Assert.Equal((1963, 1979), (result.GetProperty("felling").GetProperty("likelyFrom").GetInt32(), result.GetProperty("felling").GetProperty("likelyTo").GetInt32()));
        Assert.Equal("MEMORY", result.GetProperty("use").GetProperty("seasoningFlag").GetString());
        Assert.Equal(["curves-1.svg", "curves-2.svg", "dating.json", "positions-1.svg", "positions-2.svg"], Directory.GetFiles(folder["out"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        (code, text, _) = CommandLine.Run("rings", "date", board, "--against", Reference("nc004.rwl"));
        Assert.Equal(0, code);
        Assert.Contains("No date", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Bad_requests_say_what_to_do()
    {
        using var folder = new TemporaryFolder();
        File.WriteAllText(folder["cut.rwl"], "ABCDEF  1980   100   110\n");
        foreach (var (arguments, problem) in new (string[], string)[]
        {
            (["rings", "list", folder["none.rwl"]], "file-not-read"), (["rings", "list", folder["cut.rwl"]], "rings-unended"), (["rings", "convert", Reference("nc004.rwl"), folder["cut.rwl"]], "file-exists"),
            (["rings", "convert", folder["cut.rwl"] + ".json", folder["new.rwl"]], "figures-not-read"), (["rings", "date", Reference("nc004.rwl"), "--against", Reference("nc004.rwl")], "series"),
            (["rings", "date", Board(folder), "--against", Reference("nc004.rwl"), "--model", "moon"], "choice"), (["panel", "--wood", "plastic", "--width", "300", "--from", "50", "--to", "35"], "wood"),
            (["panel", "--wood", "oak", "--width", "-1", "--from", "50", "--to", "35"], "number-out-of-range"), (["panel", "--wood", "oak", "--cut", "round", "--width", "300", "--from", "50", "--to", "35"], "cut"),
        })
        {
            var (code, _, error) = CommandLine.Run(arguments);
            Assert.Equal((2, true), (code, error.Contains($"({problem})", StringComparison.Ordinal)));
        }
    }

    [Fact]
    public void A_panel_says_how_far_it_moves_and_what_restrains_it()
    {
        var (code, text, error) = CommandLine.Run("panel", "--wood", "oak", "--cut", "radial", "--width", "300", "--from", "50", "--to", "35");
        Assert.True(code == 0, error);
        Assert.Contains("shrinks by 1.29 mm", text, StringComparison.Ordinal);
        Assert.Contains("cradle", text, StringComparison.Ordinal);
        Assert.Contains("not verified", text, StringComparison.Ordinal);
    }

    /// <summary>The last 150 rings of one series, as a table without dates.</summary>
    private static string Board(TemporaryFolder folder)
    {
        Assert.Equal(0, CommandLine.Run("rings", "convert", Reference("co021.rwl"), folder["all.csv"]).Code);
        string[][] rows = [.. File.ReadAllLines(folder["all.csv"]).Select(r => r.Split(','))];
        var column = Array.IndexOf(rows[0], "\"642114\"");
        File.WriteAllLines(folder["board.csv"], ["ring,board", .. rows.Skip(1).Where(r => r[column].Length > 0).TakeLast(150).Select((r, i) => $"{i + 1},{r[column]}")]);
        File.Delete(folder["all.csv"]);
        return folder["board.csv"];
    }

    private static string Reference(string name) => Path.Combine(AppContext.BaseDirectory, "References", "Rings", name);
}
