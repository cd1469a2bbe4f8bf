using NetVips;

namespace Sandarac.Imaging.Formats;

/// <summary>Says in plain words what libvips says of a file.</summary>
internal static class VipsProblem
{
    private static readonly string[] Truncation = ["truncated", "premature end", "end of file", "unexpected end", "not enough data", "read error", "short read"];
    private static readonly string[] Unsupported = ["not supported", "unsupported", "not implemented", "not configured", "sorry", "not a whole number of bytes", "samples out of range"];

    public static InputProblem From(string path, VipsException e)
    {
        var (name, said) = (Path.GetFileName(path), e.Message);
        if (Says(said, "no space left"))
            return new InputProblem("disk-full", name, $"There is no room on the temporary disk to unpack {name}.", "Free some space in the temporary folder.", e);
        if (Says(said, Unsupported))
            return new InputProblem("image-unsupported", name, $"{name} is stored in a way that is not read here{Reason(said)}.", "Save it again as an ordinary 8- or 16-bit TIFF.", e);
        if (Says(said, Truncation))
            return new InputProblem("file-truncated", name, $"{name} ends early or is damaged.", "Copy it again from where it was made.", e);
        return new InputProblem("file-damaged", name, $"{name} is damaged{Reason(said)}.", "Copy it again from where it was made, or save it again in the program that wrote it.", e);
    }

    private static bool Says(string said, params string[] any) => any.Any(a => said.Contains(a, StringComparison.OrdinalIgnoreCase));

    /// <summary>The library's last words, without the names of its functions; nothing when it only says that it could not.</summary>
    private static string Reason(string said)
    {
        var lines = said.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Where(l => !l.Contains("unable to", StringComparison.Ordinal));
        var last = lines.LastOrDefault()?.TrimEnd('.');
        return last is null ? "" : $" ({last[(last.IndexOf(": ", StringComparison.Ordinal) is > 0 and var colon ? colon + 2 : 0)..]})";
    }
}
