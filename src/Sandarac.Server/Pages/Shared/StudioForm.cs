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
