using System.Globalization;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Cleaning;

/// <summary>Agents as people write them: "ethanol 20 + isooctane 80", "deionised water".</summary>
public static class AgentText
{
    /// <summary>"ethanol 20 + isooctane 80"; a single one without its 100.</summary>
    public static string Of(IReadOnlyList<AgentPart> parts) => parts is [{ Percent: 100 } only] ? only.Name : string.Join(" + ", parts.Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.Name} {p.Percent:0.##}")));

    /// <summary>Reads parts: names with percent by volume between plus signs; a single one may go without.</summary>
    /// <exception cref="InputProblem">A part of several has no share ("agent-share"); there is none at all ("agent").</exception>
    public static IReadOnlyList<AgentPart> Read(string text)
    {
        var pieces = text.Split('+', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        if (pieces.Length == 0) throw new InputProblem("agent", "agent", "The agent has no name.", "Write it: \"isooctane\", or \"ethanol 20 + isooctane 80\" with percent by volume.");
        return [.. pieces.Select(p => Part(p, pieces.Length == 1))];
    }

    /// <summary>A number at the end is the share, unless the name goes on in brackets: "isooctane (2,2,4-trimethylpentane)" has none.</summary>
    private static AgentPart Part(string piece, bool alone)
    {
        var at = piece.LastIndexOf(' ');
        if (at > 0 && double.TryParse(piece[(at + 1)..].TrimEnd('%').Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var percent) && double.IsFinite(percent)) return new AgentPart(piece[..at].TrimEnd(), percent);
        return alone ? new AgentPart(piece, 100) : throw new InputProblem("agent-share", "agent", $"\"{piece}\" has no share.", "Write percent by volume behind each part: \"ethanol 20 + isooctane 80\".");
    }
}
