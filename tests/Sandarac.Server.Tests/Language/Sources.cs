using System.Text;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace Sandarac.Server.Tests.Language;

/// <summary>The sources that the tables of languages are held against.</summary>
internal static partial class Sources
{
    public static string Root { get; } = FindRoot();

    public static string Pages { get; } = Path.Combine(Root, "src", "Sandarac.Server", "Pages");

    /// <summary>Texts of the files of a folder, with those of the folders in it.</summary>
    public static IEnumerable<(string File, string Text)> In(string folder, params string[] endings) => Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories)
        .Where(f => endings.Any(e => f.EndsWith(e, StringComparison.Ordinal)) && !f.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal)
            && !f.Contains($"{Path.DirectorySeparatorChar}Migrations{Path.DirectorySeparatorChar}", StringComparison.Ordinal)).Select(f => (f, File.ReadAllText(f)));

    /// <summary>A table as it is written: key and translation.</summary>
    public static IReadOnlyDictionary<string, string> Table(string name) =>
        XDocument.Load(Path.Combine(Pages, "Language", $"{name}.es.resx")).Root!.Elements("data").ToDictionary(d => d.Attribute("name")!.Value, d => d.Element("value")!.Value);

    /// <summary>The texts that a file's C# holds, what is filled in as {0}, {1} ...</summary>
    public static IEnumerable<string> Literals(string code)
    {
        // Of a page the part behind its markup, whose quotes pair otherwise.
        code = Comment().Replace(code.Split("@code {")[^1], "");
        for (var at = code.IndexOf('"', StringComparison.Ordinal); at >= 0; at = code.IndexOf('"', at))
        {
            if (at > 0 && code[at - 1] == '\'') at++;
            else if (code.AsSpan(at).StartsWith("\"\"\"")) at = code.IndexOf("\"\"\"", at + 3, StringComparison.Ordinal) + 3;
            else yield return Literal(code, ref at);
        }
    }

    /// <summary>A text with places as a pattern that what was filled in matches.</summary>
    public static Regex Filled(string template) => new($"^{Place().Replace(Regex.Escape(template), ".+")}$");

    private static string Literal(string code, ref int at)
    {
        var (holed, escaped) = (at > 0 && code[at - 1] == '$', at == 0 || code[at - 1] != '@');
        var text = new StringBuilder();
        var holes = 0;
        for (at++; code[at] != '"'; at++)
        {
            if (code[at] == '\\' && escaped) text.Append(code[++at] == 'u' ? (char)Convert.ToInt32(code[(at + 1)..(at += 5)], 16) : code[at]);
            else if (holed && code[at] == '{' && code[at + 1] != '{')
            {
                text.Append('{').Append(holes++).Append('}');
                at = EndOfHole(code, at);
            }
            else text.Append(code[at]);
        }
        at++;
        return text.ToString();
    }

    private static int EndOfHole(string code, int at)
    {
        for (var depth = 0; ; at++)
        {
            if (code[at] == '"')
            {
                Literal(code, ref at);
                at--;
            }
            else if (code[at] == '{') depth++;
            else if (code[at] == '}' && --depth == 0) return at;
        }
    }

    private static string FindRoot()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Sandarac.slnx"))) folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("Not run from a checkout.");
        return folder;
    }

    [GeneratedRegex("""^\s*//.*$""", RegexOptions.Multiline)]
    private static partial Regex Comment();

    [GeneratedRegex("""\\\{\d\}""")]
    private static partial Regex Place();
}
