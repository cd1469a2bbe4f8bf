using Microsoft.AspNetCore.Components;
using Sandarac.Imaging;
using Sandarac.Studio;

namespace Sandarac.Server.Pages.Shared;

/// <summary>A form that writes something and then shows a page; what is wrong is said above it, and what was entered stays.</summary>
public abstract class StudioForm : ComponentBase
{
    /// <summary>The studio.</summary>
    [Inject] protected OpenStudio Studio { get; set; } = null!;

    [Inject] private NavigationManager Navigation { get; set; } = null!;

    [CascadingParameter] private HttpContext Http { get; set; } = null!;

    /// <summary>What was wrong; null when nothing was.</summary>
    protected InputProblem? Problem { get; private set; }

    /// <summary>What was entered, after it was refused.</summary>
    private protected Entered Entered { get; private set; } = new(null);

    private protected static string User => Environment.UserName;

    /// <summary>A file that was chosen.</summary>
    /// <exception cref="InputProblem">None was ("file-missing").</exception>
    private protected IFormFile File(string field) => Http.Request.Form.Files.GetFile(field) is { Length: > 0 } file ? file : throw new InputProblem("file-missing", field, "No file was chosen, or an empty one.", "Choose a file.");

    /// <summary>Writes what was entered.</summary>
    /// <param name="write">Writes it and gives the address to show afterwards.</param>
    private protected void WriteAndShow(Func<Entered, string> write)
    {
        var entered = new Entered(Http.Request.Form);
        string address;
        try
        {
            address = write(entered);
        }
        catch (InputProblem problem)
        {
            (Problem, Entered) = (problem, entered);
            return;
        }
        Navigation.NavigateTo(address);
    }
}
