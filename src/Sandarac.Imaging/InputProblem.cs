namespace Sandarac.Imaging;

/// <summary>
/// The first of the four kinds of error: something a person gave is wrong and a person can put it right.
/// The command line exits with 2, the server answers problem+json, a form shows it at its field.
/// </summary>
/// <remarks>The other kinds are not exceptions of ours: "no answer" is a value, a <see cref="Warning"/> is stored with a result,
/// and a defect is any other exception.</remarks>
public sealed class InputProblem : Exception
{
    /// <summary>Describes a problem with the input.</summary>
    /// <param name="code">Stable, kebab-case, for programs and translations: <c>file-truncated</c>.</param>
    /// <param name="subject">The parameter, or the file's name as the person gave it, that is wrong.</param>
    /// <param name="message">What is wrong and where, in one plain sentence.</param>
    /// <param name="remedy">What to do about it, in one plain sentence.</param>
    /// <param name="cause">The library's own exception, when there is one.</param>
    public InputProblem(string code, string subject, string message, string remedy, Exception? cause = null) : base(message, cause)
    {
        Code = code;
        Subject = subject;
        Remedy = remedy;
    }

    /// <summary>Stable code of the problem.</summary>
    public string Code { get; }

    /// <summary>The parameter or file that is wrong.</summary>
    public string Subject { get; }

    /// <summary>What a person can do about it.</summary>
    public string Remedy { get; }
}
