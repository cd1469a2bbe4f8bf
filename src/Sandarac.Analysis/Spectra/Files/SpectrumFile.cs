using System.Text;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Spectra.Files;

/// <summary>Reads spectra: EMSA/MAS (ISO 22029), text tables, and counts under $DATA:. What a file holds decides, not its name.</summary>
public static class SpectrumFile
{
    /// <summary>Largest file that is read, bytes: 16384 channels in two wide columns take a twentieth of it.</summary>
    public const int MostBytes = 8_000_000;

    /// <summary>Most lines: notes, blank lines and all, sixteen for each channel.</summary>
    private const int MostLines = 16 * Spectrum.MostChannels;

    /// <summary>Reads a file.</summary>
    /// <exception cref="InputProblem">It is missing, too large, no text, or no spectrum that can be used; the message says where.</exception>
    public static Spectrum Read(string path)
    {
        var name = Path.GetFileName(path);
        var file = new FileInfo(path);
        if (!file.Exists) throw new InputProblem("spectrum-missing", name, $"{name} is not there.", "Give the file's path as it is on this computer.");
        if (file.Length > MostBytes) throw TooLarge(name);
        return Parse(File.ReadAllBytes(path), name);
    }

    /// <summary>Reads a file's bytes.</summary>
    /// <param name="bytes">All of them.</param>
    /// <param name="name">The file's name, for messages.</param>
    /// <exception cref="InputProblem">As for <see cref="Read"/>.</exception>
    public static Spectrum Parse(ReadOnlySpan<byte> bytes, string name)
    {
        if (bytes.Length > MostBytes) throw TooLarge(name);
        if (bytes.ContainsAnyInRange((byte)0, (byte)8))
            throw new InputProblem("spectrum-not-text", name, $"{name} is not text.", "Export the spectrum from the instrument's program as EMSA (.msa) or as a table of channel or energy and counts.");
        if (Math.Max(bytes.Count((byte)'\n'), bytes.Count((byte)'\r')) is > MostLines and var many)
            throw new InputProblem("spectrum-channels", name, $"{name} has {many} lines; a spectrum has at most {Spectrum.MostChannels} channels.", "Give one spectrum, not a map; sum neighbouring channels where there are more.");
        // EMSA is ASCII; titles written on the instrument's computer are often Latin-1, in which any byte is a letter.
        var text = bytes.StartsWith("\xEF\xBB\xBF"u8) ? Encoding.UTF8.GetString(bytes[3..]) : Encoding.Latin1.GetString(bytes);
        string[] lines = text.ReplaceLineEndings("\n").Split('\n');
        if (lines.All(string.IsNullOrWhiteSpace)) throw new InputProblem("spectrum-empty", name, $"{name} is empty.", "Export the spectrum again.");
        var first = lines.First(l => !string.IsNullOrWhiteSpace(l)).TrimStart();
        return first.StartsWith("#FORMAT", StringComparison.OrdinalIgnoreCase) ? EmsaFile.Parse(lines, name) : first.StartsWith('$') ? SpeFile.Parse(lines, name) : SpectrumTable.Parse(lines, name);
    }

    private static InputProblem TooLarge(string name) => new("spectrum-too-large", name, $"{name} is larger than {MostBytes / 1_000_000} MB.", "Give one spectrum; a map of many is not read.");
}
