// A button of a card: with its press go the values of the card's fields as the page has them now.
export default {
  render({model, el}) {
    const button = document.createElement('button');
    button.type = 'button';
    button.className = 'lesson-button';
    button.textContent = model.get('description');
    button.addEventListener('click', async () => {
      const fields = await Promise.all(model.get('fields').map(({model_id}) => model.widget_manager.get_model(model_id)));
      model.send(fields.map((field, number) => field.get(model.get('fields')[number].name)));
    });
    el.replaceChildren(button);
  },
};
