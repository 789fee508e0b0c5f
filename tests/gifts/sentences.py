"""Sentences as they stand in letters to givers: what a thank-you may say, and what it may not. Own invention."""

GOOD_THANKS = """
Thank you for the forty terracotta pots you brought to Millrace Elementary on October 6.
Every child in grade 3 painted one, and each went home with a seedling.
We needed lids for the paint jars, and yours fit as if they had been made for us.
Please come and see the work at our spring show on May 14.
Please call me at school if you have any questions.
Please share our thanks with everyone at the shop.
Please give our best to your staff.
If you can come to the show, we will keep a chair for you.
You gave without being asked, and the children noticed.
Thank you for considering our request this year.
We asked for ten frames and you sent fourteen.
The students wrote that they want to visit your shop.
You helped us hang forty works in one afternoon.
Your gift of paper became the sky in our mural.
The frames you lent us are back in your window, clean and complete.
Many children need time before they dare the first line; your large sheets gave it to them.
You said that you could spare two boxes; they lasted until spring.
The support you gave reached 142 children.
We hope you enjoy the enclosed card from room 12.
I hope that you and your family have a restful summer.
The children could use every color you sent.
Because of you, nobody had to share a brush.
A week's worth of paper became three weeks of drawing.
It was worth the wait.
Your valued help made the evening run.
We value your friendship.
The children learned the value of patience.
Thank you for giving your Saturday to our show.
The bank's lobby looks wonderful with the collages, and the children are proud.
You may see the work in the school office through June.
Would you like to see the finished pots? They stand in the front hall.
Can you spot your ribbon in the picture?
We will return the easels on Friday, as promised.
As we promised, fifty decorated bags are on their way to you.
Your discount let us buy a second box of clay for grade 5.
Thank you for the three hours you spent teaching us to cut mats.
The workshop in your kitchen was the high point of our year.
We did what you suggested and soaked the yarn first; it worked.
Your note arrived with the boxes and we read it aloud in class.
We still talk about the day your truck came.
You kept your promise in the middle of your busiest week.
No one went without a smock this year.
The wood scraps are now a city with eleven towers.
The principal joins me in thanking you.
What you sent is on the shelf in room 4, with your name on it.
We counted 212 buttons and every one has been used.
Thanks to your gift, the second graders made their first prints.
In grade 1 the ribbon became kites, in grade 2 it became looms.
The children send you the enclosed drawing.
It is a pleasure to have you as a neighbor.
We are grateful for your time, your patience and your good humor.
Next year the mural will still hang beside the library door.
You asked what the tubes would become: they are rain sticks.
The library show opens on Monday; you are warmly invited.
On behalf of 604 children, thank you.
The six rolls of brown paper arrived on Tuesday, October 13, 2026.
We lined the hall with the mat board you saved for us.
The children asked me to send you this.
When you offered the window, we could hardly believe it.
You have been a friend of this room since 2019.
Your kindness costs you time on a busy morning, and we know it.
Everyone who could hold a needle sewed.
We had hoped for ten, and you gave us thirty.
The need was large and you met it.
Your name will stand on the card beside the mural only because you said yes.
Maybe you will recognize the blue in the picture: it is your paint.
It is possible to see the whole mural from Second Street.
You were able to give us the room for two evenings, and both were full.
The children who could not afford a frame got one from your box.
I wish you could have seen their faces.
We hope you like the photograph.
I ask the children each week what they remember best; it is your visit.
You make a gift of your time look easy.
We wish you a good harvest.
Your help with the hanging saved us a whole evening.
The show ran until five, and the pots stood by the door.
Students from four classes used your tile.
If you are near the school, please look in.
If you want to see the work, the office opens at eight.
Your gift was used up by December, down to the last inch.
The library has asked to show the prints again.
Thanks to you we have enough.
We can always tell which box is yours: it has the best lids.
Usted nos ayudó cuando más falta hacía.
Los niños pueden ver su nombre en la tarjeta.
Su ayuda nos permitió terminar el mural.
Ahora tenemos suficiente papel para el año entero.
Nothing makes a child prouder than a frame.
We received no complaints, only smiles.
Any child would be proud of that shelf.
We would love to show you the finished mural.
May we send you a print for your counter?
More than a hundred people came, and another hundred would have filled the hall.
Think of the children when you pass the corner of Elm Street.
I will let you know when the mural is up.
Let me know if you would rather not be named.
Another class would have gone without, but for you.
Could we have done it alone? No.
You brought us exactly the blue we had in mind.
We like to think that your shop smells of clay now, too.
We drop off the bags on Thursday at nine.
Gracias por las cuarenta macetas que trajo a la escuela el 6 de octubre.
Los niños pintaron una maceta cada uno y la llevaron a casa.
Su regalo llegó a 142 estudiantes.
Por favor, venga a ver la exposición el 14 de mayo.
Por favor llámeme si tiene preguntas.
Esperamos verle en la exposición de primavera.
La directora se une a mi agradecimiento.
Necesitábamos papel grande y usted nos lo dio.
"""

ASKS = """
Would you consider giving again next spring?
Could you please donate ten more boxes of tile?
Can your shop spare some ribbon in March?
Will you help us again at the fall show?
If you could also send some cardboard, we would be grateful.
If you have any other offcuts, please set aside a box for us.
Please consider supporting our kiln project.
Please donate what you can.
Please send any extra frames you have.
We still need forty smocks before January.
We need more clay for grade 4.
We also need yarn.
We are looking for a sponsor for the spring show.
We are running low on paint.
We are short of brushes.
We could really use another delivery like this one.
We hope you will give again next year.
We hope that your company can support us in the fall.
We would love for you to donate again.
I wonder if you might be willing to lend us easels.
Our wish list is enclosed.
You will find this year's wishlist on the back.
We are counting on your help in spring.
Thank you in advance for your continued support.
We look forward to your next gift.
Please make a donation at the office.
Our budget is very small this year.
Funding has been cut, and we cannot afford clay.
We can't afford new brushes.
Is there any chance you could give us another roll?
Perhaps you would be able to contribute glue as well.
Keep us in mind: we always need boxes.
If you would like to help again, call me.
Anyone who can donate fabric may call me; could you help with that too?
Any leftover tile would be most welcome.
Feel free to drop off more whenever you like.
We would welcome more fabric at any time.
Let us know if more becomes available.
May we come back for another load in May?
May we ask you again in the fall?
Your support next year would mean a lot.
Please remember us at the end of the year.
There is still time to sponsor a class.
The kiln fund is only half full.
Could we borrow the easels again?
We need volunteers for the show.
Would it be possible to get two more rolls?
Kindly consider a gift card as well.
Please think of us when you clear out your storeroom.
Would your staff be willing to help with hanging?
We would be thankful for any further donation.
We hope to count on you again.
¿Nos puede ayudar también con la pintura?
¿Podría donar más pintura en marzo?
Por favor considere donar otra vez.
Todavía necesitamos cuarenta delantales.
Nos hacen falta pinceles.
Esperamos contar con su apoyo el próximo año.
Adjuntamos nuestra lista de deseos.
Nuestro presupuesto es muy limitado.
Si puede, ¿nos podría prestar unos caballetes?
"""

# Asks that name neither a giver's doing nor a need in so many words: no list of phrases finds them.
OBLIQUE_ASKS = """
Do you think you might part with a few more boards?
Do you ever have broken tile to give away?
Could your printer cut some more card for us?
The shelves are empty again.
If more offcuts turn up, I can come by any Tuesday.
Will there be more tubes in May?
You could make it two boxes next time.
Please ask your head office about a grant.
"""

VALUES = """
Thank you for the paint, a $200 gift.
The frames are worth a great deal.
You gave us clay worth 300.
The paper, valued at two hundred, arrived on Monday.
Its retail value is printed on the box.
The fair market value is yours to say.
These pots have a value of about 80.
Two hundred dollars of tile came on Friday.
You saved us 50 bucks.
That is US$ 1,200.00 of lumber.
USD 75 of ribbon.
Fifty cents each, times four hundred.
Forty dollars' worth of glitter.
We estimate 200 worth of wood.
The estimated value of the easels is high.
At the regular price we could not have bought it.
Las macetas tienen un valor de 80.
El valor estimado es alto.
Son doscientos dólares de papel.
El papel, valorado en cien, llegó el lunes.
Cuesta 40 en la tienda.
"""

NOTHING = """
You received nothing in return.
No goods or services were provided in return for your gift.
No goods or services were given to you.
You asked for nothing in exchange.
Nothing was given in return.
We did not give you any goods or services in return.
You wanted nothing back.
You gave without expecting anything in return.
You did not receive anything in return for the pots.
Usted no recibió nada a cambio.
No se le entregaron bienes ni servicios.
Ningún bien o servicio se entregó a cambio.
"""


def lines(text: str) -> list[str]:
    return text.strip().splitlines()
