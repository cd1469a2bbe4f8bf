using System.Buffers;

namespace Sandarac.Materials.Terms;

/// <summary>The few commands of SVG's path language in which hatches are written. https://www.w3.org/TR/SVG2/paths.html#PathData</summary>
internal static class HatchPath
{
    private const int Longest = 2000;

    private static readonly SearchValues<char> OfNumbers = SearchValues.Create("0123456789.-+ ,");

    /// <summary>The subpaths' corners.</summary>
    /// <exception cref="FormatException">Another command, a number missing, or a subpath of one point.</exception>
    public static IReadOnlyList<IReadOnlyList<(double X, double Y)>> Read(string path)
    {
        if (path.Length > Longest) throw new FormatException($"A hatch is written in at most {Longest} letters.");
        List<List<(double X, double Y)>> all = [];
        foreach (var (command, numbers) in Commands(path))
        {
            if (command == 'M') all.Add([(numbers[0], numbers[1])]);
            else if (all.Count == 0) throw new FormatException("A path begins with M.");
            else all[^1].Add(Next(command, numbers, all[^1]));
        }
        return all.All(p => p.Count > 1) ? all : throw new FormatException("A stroke has one point only; a dot is a stroke of 0.01 mm.");
    }

    private static (double X, double Y) Next(char command, double[] numbers, List<(double X, double Y)> points) => command switch
    {
        'L' => (numbers[0], numbers[1]),
        'H' => (numbers[0], points[^1].Y),
        'V' => (points[^1].X, numbers[0]),
        'h' => (points[^1].X + numbers[0], points[^1].Y),
        _ => points[0],
    };

    private static IEnumerable<(char Command, double[] Numbers)> Commands(string path)
    {
        for (var i = 0; i < path.Length;)
        {
            var command = path[i++];
            if (command == ' ') continue;
            var end = path.AsSpan(i).IndexOfAnyExcept(OfNumbers);
            var text = end < 0 ? path[i..] : path[i..(i + end)];
            var needed = command switch { 'M' or 'L' => 2, 'H' or 'V' or 'h' => 1, 'Z' => 0, _ => throw new FormatException($"\"{command}\" is none of the commands M, L, H, V, h and Z.") };
            double[] numbers = [.. text.Split([' ', ','], StringSplitOptions.RemoveEmptyEntries).Select(Hatch.Number)];
            if (numbers.Length != needed) throw new FormatException($"{command} takes {needed} numbers, not {numbers.Length}.");
            yield return (command, numbers);
            i += text.Length;
        }
    }
}
